#!/usr/bin/python3
"""Expected stored values of the sample files, by programs that share no code with this project.

Uncompressed and deflated: pydicom. RLE, JPEG, JPEG-LS: dcmtk. JPEG 2000 and HTJ2K: GDCM with OpenJPEG 2.5.
Prints one line a file: name, size, samples, minimum, maximum, mean and SHA-256 of the first frame's values
(little endian, sign extended; colour as ITU-R BT.601 luma). Needs Debian's python3-pydicom, dcmtk,
libgdcm-tools.
"""
import glob, hashlib, os, struct, subprocess, sys, tempfile, warnings

import pydicom

warnings.simplefilter("ignore")
HERE = os.path.dirname(os.path.abspath(__file__))
PREFIX = "1.2.840.10008.1.2"
TOOLS = {".5": ["dcmdrle"], ".4.50": ["dcmdjpeg", "+cp"], ".4.57": ["dcmdjpeg"], ".4.70": ["dcmdjpeg"],
         ".4.80": ["dcmdjpls"], ".4.90": ["gdcmconv", "--raw"], ".4.91": ["gdcmconv", "--raw"],
         ".4.201": ["gdcmconv", "--raw"], ".4.203": ["gdcmconv", "--raw"]}


def unpacked(path, syntax):
    tool = TOOLS.get(syntax)
    if tool is None:
        return pydicom.dcmread(path, force=True)
    if "JLSL_08_07" in path:
        tool = ["gdcmconv", "--raw"]  # dcmtk refuses its 7 bits
    with tempfile.NamedTemporaryFile(suffix=".dcm") as out, tempfile.NamedTemporaryFile(suffix=".dcm") as renamed:
        if syntax.startswith(".4.20"):
            # GDCM does not know the name of HTJ2K, its OpenJPEG knows the stream.
            high = pydicom.dcmread(path)
            high.file_meta.TransferSyntaxUID = PREFIX + ".4.90"
            high.save_as(renamed.name)
            path = renamed.name
        subprocess.run([*tool, path, out.name], check=True, capture_output=True)
        return pydicom.dcmread(out.name, force=True)


def first_frame(path):
    head = pydicom.dcmread(path, force=True)
    syntax = str(getattr(head.file_meta, "TransferSyntaxUID", PREFIX)).removeprefix(PREFIX)
    data = unpacked(path, syntax)
    bits, samples = data.BitsAllocated, data.SamplesPerPixel
    size = data.Rows * data.Columns
    photometric = data.PhotometricInterpretation
    count = size * 2 if photometric == "YBR_FULL_422" else size * samples
    order = "<" if data.is_little_endian else ">"
    values = struct.unpack(f"{order}{count}{'BH'[bits // 16]}", data.PixelData[: count * bits // 8])
    shift = data.HighBit + 1 - data.BitsStored
    mask = (1 << data.BitsStored) - 1
    values = [(v >> shift) & mask for v in values]
    if data.PixelRepresentation == 1:
        top = 1 << (data.BitsStored - 1)
        values = [v - 2 * top if v >= top else v for v in values]
    return data, values, samples, data.get("PlanarConfiguration", 0), photometric


def grey(data, values, samples, planar, photometric):
    size = data.Rows * data.Columns
    if samples == 1:
        return values
    if photometric == "YBR_FULL_422":
        return [values[(i >> 1) * 4 + (i & 1)] for i in range(size)]
    step, g, b = (1, size, 2 * size) if planar else (3, 1, 2)
    if photometric != "RGB":
        return [values[i * step] for i in range(size)]
    return [int(0.299 * values[i * step] + 0.587 * values[i * step + g] + 0.114 * values[i * step + b] + 0.5)
            for i in range(size)]


for path in sorted(glob.glob(os.path.join(HERE, "*", "*.dcm"))):
    name = os.path.relpath(path, HERE)
    try:
        found = first_frame(path)
        values = grey(*found)
        wide = found[0].BitsAllocated > 8
        signed = found[0].PixelRepresentation == 1
        code = {(False, False): "B", (False, True): "b", (True, False): "H", (True, True): "h"}[(wide, signed)]
        digest = hashlib.sha256(struct.pack(f"<{len(values)}{code}", *values)).hexdigest()[:16]
        mean = sum(values) / len(values)
        print(name, f"{found[0].Columns}x{found[0].Rows}", found[2], min(values), max(values), f"{mean:.2f}", digest)
    except Exception as error:
        print(name, "-", type(error).__name__, str(error)[:60].replace("\n", " "), file=sys.stderr)
