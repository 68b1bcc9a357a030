"""Trees, bolts, boulders and the slings round them."""
