"""What all algorithms share: parameters, reading, the table of layers, writing, styles."""
