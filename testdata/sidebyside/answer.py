import csv
from collections import defaultdict


def rows(name):
    with open(name, newline="") as f:
        yield from csv.DictReader(f)


def whole(text):
    return int(text.replace(".", ""))


food = defaultdict(int)
for r in rows("receipts.csv"):
    if r["kind"] == "food":
        food[r["receipt"]] += (whole(r["count"]) * whole(r["price"]) + 500) // 1000
power = defaultdict(int)
for r in rows("phases.csv"):
    q, rest = divmod(whole(r["kwh"]) * 2837, 10)
    power[r["run"]] += q + (rest > 5 or rest == 5 and q % 2)
made = defaultdict(int)
for r in rows("packs.csv"):
    made[r["run"]] += int(r["count"]) * whole(r["each"].removesuffix(" L"))
month = {r["run"]: r["start"][:7] for r in rows("runs.csv")}
sums = defaultdict(lambda: [0, 0, 0])
for r in rows("loads.csv"):
    s = sums[month[r["run"]]]
    s[0] += made[r["run"]]
    s[1] += food[r["receipt"]] * 10000
    s[2] += power[r["run"]]
for key in sorted(sums):
    print(key, *sums[key], sep=",")
