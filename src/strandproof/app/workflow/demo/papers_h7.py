"""The mill certificate of case H7: typed data, all invented."""

CERTIFICATE = {
    "item": "8 mm rod",
    "lot": "heat 77-B",
    "issuer": "mill of the rod, as printed",
    "method": "spark spectrometry",
    "basis": "metals_only",
}

ELEMENTS = """\
Element;Value;Unit
Ag;11,2;ppm
As;0,9;ppm
Bi;<0,2;ppm
Cd;<0,2;ppm
Co;<0,3;ppm
Cr;<0,3;ppm
Fe;3,1;ppm
Mn;<0,2;ppm
Ni;1,4;ppm
P;<0,5;ppm
Pb;0,8;ppm
Sb;0,9;ppm
Sn;0,6;ppm
Zn;<1;ppm
"""
