"""The texts that lie open, what they come to, and what stands where in them."""
