"""Decision tables that can be proved: rows, parameters, overlays, limits, evaluation with a trace.

Nothing here knows hair. A *rulebook* is data; a *fact* is a function that the floor above lends it.
"""
