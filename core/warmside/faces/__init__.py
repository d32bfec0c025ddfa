"""The faces of an answer: terminal text, JSON, PDF and SVG."""
