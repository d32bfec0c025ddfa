"""Classes of prey and food by mass, energy and width, and the powders that go on insects."""
