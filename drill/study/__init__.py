"""The conversation with a student: values in, values out, no screen."""
