"""Rules about the order of the chain and the weakest part."""
