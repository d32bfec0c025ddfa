"""How an animal fares on what it eats: energy balance, loss of mass, refusals."""
