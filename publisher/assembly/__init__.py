"""What each step does, and the state of the work before and after it."""

from publisher.assembly.work import assemble
from publisher.assembly.values import Action, Assembly, AssemblyStep, Checkpoint, WorkState

__all__ = ["Action", "Assembly", "AssemblyStep", "Checkpoint", "WorkState", "assemble"]
