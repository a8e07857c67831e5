"""Lets the tests beside it import `strategies`, which is no package of its own."""

import importlib.util
import sys
from pathlib import Path

_SPEC = importlib.util.spec_from_file_location("strategies", Path(__file__).parent.parent / "strategies.py")
assert _SPEC is not None
assert _SPEC.loader is not None
sys.modules["strategies"] = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(sys.modules["strategies"])
