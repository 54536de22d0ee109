"""The entry of the command line: `publisher`, or `python -m publisher`."""

import gc
import os


def main() -> None:
    """Runs a command."""
    # Garbage is looked for seldom: a command makes much, keeps most of it, and is soon over.
    gc.set_threshold(1_000_000, 20, 100)
    # No array is large here: threads for arithmetic would only stand in the way of parting the process.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # Nothing that happens to be installed beside the product takes part in how a pattern is read.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    from publisher.commands import main as run_command

    try:
        run_command()
    finally:
        # What is left goes with the process: nothing is gained by looking through it once more.
        gc.freeze()


if __name__ == "__main__":
    main()
