"""The wave-service trainer: plan permanent-wave services, and drill the judgement behind them.

The house, from the ground up; nothing imports from a floor above its own:

=============  =============================================================================
``basis``      lengths, places in files, problems, plain JSON values, visible words
``rulebook``   decision tables, parameters, overlays, proof, trace; knows no hair
``service``    consultation, geometry, planner, outcome, figures; knows the trade
``bank``       items as written, scenarios, questions with key and wrong options
``memory``     attempts, recall, choice of the next decision, diagnosis
``study``      a sitting: ask, mark, explain
``load``       YAML text to typed values, all faults with their places
``store``      the attempt log and the compiled book on disk
``report``     plans, questions and progress as text
``cli app``    the terminal and the window; no decision is taken there
=============  =============================================================================
"""
