"""Files of the builder's: read line by line with every fault at its place, and written whole or not at all."""
