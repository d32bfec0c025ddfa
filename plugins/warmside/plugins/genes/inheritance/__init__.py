"""How traits are inherited and what facts say of the genotypes of a family."""
