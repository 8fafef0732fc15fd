"""The trained network at work: a picture in, planes of probability out.

Here live the names of the planes, the packaged network with its card, and the
tiling that bounds the memory. It may import `errors`, `records` and the array
libraries, and ONNX Runtime; it never needs PyTorch. How the network was trained
stands in ``training/`` of the project and on the card.
"""
