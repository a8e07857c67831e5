"""The phone's screens: values say what is on them, and a thin layer draws it."""
