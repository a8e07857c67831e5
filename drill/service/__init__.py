"""The trade: consultation, head, tools, planner and figures. Its rules are data, in ``rules/``."""
