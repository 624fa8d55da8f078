"""Training of the listening network: random songs in, ONNX model out."""
