"""What each step does, and the state of the work before and after it."""

from publisher.assembly.values import Action, Assembly, AssemblyStep, Checkpoint, WorkState
from publisher.assembly.work import after_action, assemble

__all__ = ["Action", "Assembly", "AssemblyStep", "Checkpoint", "WorkState", "after_action", "assemble"]
