"""What is shown and is no screen: pictures, and answers as PDF."""
