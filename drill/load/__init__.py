"""YAML text to typed values. Every fault is gathered with its place; nothing here decides anything."""
