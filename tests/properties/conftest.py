"""Lets the tests beside it import `strategies` and `second_opinion`, which are no packages of their own."""

import importlib.util
import sys
from pathlib import Path

_HERE = Path(__file__).parent
for _path in (_HERE.parent / "strategies.py", _HERE / "second_opinion.py"):
    _spec = importlib.util.spec_from_file_location(_path.stem, _path)
    assert _spec is not None
    assert _spec.loader is not None
    sys.modules[_path.stem] = importlib.util.module_from_spec(_spec)
    _spec.loader.exec_module(sys.modules[_path.stem])
