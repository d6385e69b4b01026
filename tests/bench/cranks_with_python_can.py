"""Reads a candump log with python3-can, decodes EEC1 with struct, averages with pandas: what a person without Meniscus would write.

Stretches as in the README of the recordings: consecutive valid samples with 50 < rpm < 400; those that begin at a standstill are cranks.
"""
import json
import struct
import sys

import can
import pandas as pd

EEC1 = 61444  # J1939-71, PGN of engine speed (SPN 190: bytes 4 and 5, 0.125 rpm a bit)

times, speeds = [], []
first = None
for message in can.CanutilsLogReader(sys.argv[1]):
    if first is None:
        first = message.timestamp
    identifier = message.arbitration_id
    if not message.is_extended_id or (identifier >> 8) & 0x3FFFF != EEC1 or identifier & 0xFF != 0:
        continue
    (raw,) = struct.unpack_from("<H", message.data, 3)
    if raw <= 0xFAFF:
        times.append(message.timestamp - first)
        speeds.append(raw * 0.125)

frame = pd.DataFrame({"t": times, "rpm": speeds})
inside = (frame.rpm > 50) & (frame.rpm < 400)
stretch = (inside != inside.shift()).cumsum()
before = frame.rpm.shift()
cranks = []
for _, rows in frame[inside].groupby(stretch[inside]):
    if not before[rows.index[0]] < 50:
        continue  # it came from above: a run-down
    cranks.append({"startSeconds": rows.t.iloc[0], "endSeconds": rows.t.iloc[-1], "samples": len(rows), "sampleMeanRpm": rows.rpm.mean()})
print(json.dumps({"cranks": cranks}))
