"""The figures of `run.py` as the tables of benches/README.md."""

NAMES = {
    "setwright": "**Setwright**, source text to PDF",
    "setwright, one core": "Setwright on one core",
    "plan": "Setwright, source text to the plan's JSON, which the peers read",
    "page library": "page library (reportlab)",
    "typesetter": "typesetter (Typst)",
    "spreadsheet": "spreadsheet (openpyxl, LibreOffice)",
    "floor": "floor: packing the pages' content",
    "floor, one core": "floor on one core",
}


def short(value):
    """Three digits that count."""
    if value >= 100:
        return f"{value:,.0f}"
    return f"{value:.3g}" if value >= 0.01 else f"{value:.4f}"


def against(one, ours, key):
    return f"{short(one[key] / ours[key])} ×" if key in one else "–"


def size_table(entry):
    ours = entry["by"]["setwright"]
    lines = [
        f"### {entry['cards']:,} cards",
        "",
        "| what | seconds | time ÷ ours | all cores' seconds ÷ ours | peak MB | memory ÷ ours | PDF kB | bytes ÷ ours |",
        "|---|--:|--:|--:|--:|--:|--:|--:|",
    ]
    for key, name in NAMES.items():
        one = entry["by"].get(key)
        if one is None:
            continue
        memory = short(one["memory"]) if "memory" in one else "–"
        size = f"{one['bytes'] / 1e3:,.0f}" if "bytes" in one else "–"
        cells = [
            name, short(one["wall"]), against(one, ours, "wall"), against(one, ours, "cpu"),
            memory, against(one, ours, "memory"), size, against(one, ours, "bytes"),
        ]
        lines.append("| " + " | ".join(cells) + " |")
    return "\n".join(lines)


def aims(figures):
    """Each aim, what was measured, and whether it is met; nothing where a peer was not measured."""
    by = {entry["cards"]: entry["by"] for entry in figures["peers"]}

    def times(peer, cards, key):
        rows = by.get(cards, {})
        if peer not in rows:
            return None
        return rows[peer][key] / rows["setwright"][key]

    def floor(cards):
        rows = by[cards]
        return rows["setwright, one core"]["cpu"] / rows["floor, one core"]["cpu"]

    found = []
    for peer, cards, least in (("page library", 480, 10), ("typesetter", 480, 20), ("spreadsheet", 48, 50)):
        told = f"at least {least} times as fast as the {peer} at {cards} cards"
        ratio, cores = times(peer, cards, "wall"), times(peer, cards, "cpu")
        if ratio is None:
            found.append((told, "not measured", None))
        else:
            said = f"{short(ratio)} × by the clock, {short(cores)} × in seconds of all cores"
            found.append((told, said, min(ratio, cores) >= least))
    for cards in by:
        ratio = floor(cards)
        found.append((f"within 2 × of the floor at {cards:,} cards, on one core", f"{short(ratio)} ×", ratio <= 2))
    peak = by[4800]["setwright"]["memory"]
    found.append(("below 100 MB at 4,800 cards", f"{short(peak)} MB", peak < 100))
    for kind, one in figures["growth"].items():
        found.append((f"growth in {kind}: exponent at most 1.05", f"{one['exponent']:.3f}", one["exponent"] <= 1.05))
    ratio = figures["start"]["check"] / figures["start"]["empty"]
    told = "`check` on `examples/first-steps` within 3 × of a program that does nothing"
    found.append((told, f"{short(ratio)} × ({1e3 * figures['start']['check']:.1f} ms)", ratio <= 3))
    lines = ["### Aims", "", "| aim | measured | met |", "|---|--:|---|"]
    word = {True: "yes", False: "**no**", None: "?"}
    lines += [f"| {aim} | {measured} | {word[met]} |" for aim, measured, met in found]
    return "\n".join(lines)


def growth_table(growth):
    lines = [
        "### Growth",
        "",
        "On one core. Exponents come from a line through the logarithms of the four points; fixed costs are left in.",
        "",
        "| what grows | command | sizes | seconds | exponent |",
        "|---|---|---|---|--:|",
    ]
    for kind, one in growth.items():
        sizes = ", ".join(f"{size:,}" for size in one["sizes"])
        seconds = ", ".join(short(second) for second in one["seconds"])
        lines.append(f"| {kind} | `{one['verb']}` | {sizes} | {seconds} | {one['exponent']:.3f} |")
    return "\n".join(lines)


def text(figures):
    machine = figures["machine"]
    told = (
        f"Measured on {machine['cores']} cores of “{machine['processor']}”, {machine['memory']} of memory, "
        f"{machine['system']}; {', '.join(machine['versions'])}."
    )
    other = (
        f"The program is {figures['binary'] / 1e6:.1f} MB, made of {figures['crates']} crates "
        "besides its own (`cargo tree --edges normal`)."
    )
    tables = [size_table(entry) for entry in figures["peers"]]
    return "\n\n".join([told, aims(figures), *tables, growth_table(figures["growth"]), other])


def put(path, made, name="measured"):
    """Writes a made part into a page, between its marks."""
    page = path.read_text(encoding="utf-8")
    begin, end = f"<!-- {name} -->", f"<!-- {name} so far -->"
    before, rest = page.split(begin, 1)
    _, after = rest.split(end, 1)
    path.write_text(f"{before}{begin}\n{made}\n{end}{after}", encoding="utf-8")
