"""`python -m publisher` is `publisher`."""

from publisher.commands import main

main()
