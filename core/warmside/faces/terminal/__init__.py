"""The terminal face: quiet text that fits the width, curves in braille, never colour alone."""
