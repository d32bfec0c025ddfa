"""What two front ends need to answer, once: a question of book and plugins becomes an answer.

Front ends call these; nothing here parses text, prompts or prints.
"""
