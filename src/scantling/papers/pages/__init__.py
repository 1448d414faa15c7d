"""Pages made from a plan: every figure is the plan's, written here and nowhere reckoned again."""
