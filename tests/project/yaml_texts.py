"""Build files of every layout, made at random: block, flow, quotes, comments, line endings."""

from hypothesis import strategies as st

KEYS = st.sampled_from(
    ["a", "mass", "front axle", "2.0 twin", "'quoted'", '"double"', "no", "12", "x-y", "µ", "ä b"]
)
PLAIN = st.sampled_from(
    ["1520 ± 3 mm", "~650 mm", "no", "12:30", "010", "1e3", "true", "~", "null", "x y", "a#b",
     "35 %", "[1, 2]", "{q: 1}", "", "4", "a:b", "350 N·m", "'it''s'", '"a\\tb: \\"c\\""', "'#x'",
     "-1", "?"]
)  # fmt: skip
COMMENTS = st.sampled_from(["", "", "", "  # measured: twice", " # 'x' {"])


@st.composite
def texts(draw):
    """Return the text of a build file."""
    lines = draw(blocks(0))
    newline = draw(st.sampled_from(["\n", "\n", "\r\n"]))
    tail = draw(st.sampled_from([newline, newline, "", newline + "# end" + newline]))
    return newline.join(lines) + tail


@st.composite
def blocks(draw, depth):
    """Return the lines of a block mapping."""
    keys = draw(st.lists(KEYS, min_size=1, max_size=4, unique=True))
    step = draw(st.sampled_from([2, 2, 3, 4]))
    lines = []
    for key in keys:
        if draw(st.integers(0, 9)) == 0:
            lines.append(draw(st.sampled_from(["", "# between", "    # further in"])))
        lines += draw(entries(key, depth, step))
    return lines


@st.composite
def entries(draw, key, depth, step):
    """Return the lines of one entry, its children indented below it."""
    shape = draw(st.integers(0, 9 if depth < 3 else 5))
    comment = draw(COMMENTS)
    if shape <= 4:
        return [f"{key}: {draw(PLAIN)}{comment}"]
    if shape == 5:
        return [f"{key}: {draw(flows(depth))}{comment}"]
    inner = " " * step
    if shape == 6:
        sign = draw(st.sampled_from(["|", ">", "|-", ">-"]))
        body = draw(
            st.lists(st.sampled_from(["some text", "  more", "", "# no comment"]), max_size=3)
        )
        return [
            f"{key}: {sign}",
            f"{inner}first",
            *(f"{inner}{one}" if one else "" for one in body),
        ]
    if shape == 7:
        items = draw(st.lists(list_items(depth + 1), min_size=1, max_size=3))
        lead = draw(st.sampled_from(["", inner]))
        return [f"{key}:{comment}", *(lead + line if line else "" for one in items for line in one)]
    return [f"{key}:{comment}", *(inner + line if line else "" for line in draw(blocks(depth + 1)))]


@st.composite
def list_items(draw, depth):
    """Return the lines of one item of a block list."""
    if depth < 3 and draw(st.booleans()):
        lines = [line for line in draw(blocks(depth)) if line.strip() and line.strip()[0] != "#"]
        return ["- " + lines[0], *("  " + line for line in lines[1:])]
    return ["- " + draw(PLAIN.filter(bool)) + draw(COMMENTS)]


@st.composite
def flows(draw, depth):
    """Return a flow mapping or list on one line."""
    values = draw(st.lists(PLAIN.filter(lambda one: one not in ("", "[1, 2]")), max_size=3))
    if draw(st.booleans()):
        return "[" + ", ".join(values) + draw(st.sampled_from(["", ",", " "])) * bool(values) + "]"
    keys = draw(st.lists(KEYS, min_size=len(values), max_size=len(values), unique=True))
    pairs = [f"{key}: {value}" for key, value in zip(keys, values, strict=True)]
    return "{" + ", ".join(pairs) + draw(st.sampled_from(["", ",", " "])) * bool(pairs) + "}"
