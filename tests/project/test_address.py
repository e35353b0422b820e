import pytest
from hypothesis import given
from hypothesis import strategies as st

from drybuild.project.address import read_address, write_address


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("car.body.wheelbase", ("car", "body", "wheelbase")),
        ("jobs[2].hours", ("jobs", 2, "hours")),
        ('options.engine."2.0 twin".mass', ("options", "engine", "2.0 twin", "mass")),
        ("options.engine.turbo four", ("options", "engine", "turbo four")),
        ("curve[0][1]", ("curve", 0, 1)),
    ],
)
def test_an_address_reads_and_writes_the_same(text, steps):
    assert read_address(text) == steps
    assert write_address(steps) == text


@pytest.mark.parametrize("text", ["", ".", "a..b", "a.", "[x]", "a[", '"open', ".a", "a]b"])
def test_what_is_no_address_is_refused(text):
    with pytest.raises(ValueError, match="does not read as an address"):
        read_address(text)


@given(st.lists(st.one_of(st.text(), st.integers(0, 99)), min_size=1).map(tuple))
def test_every_address_can_be_typed(steps):
    assert read_address(write_address(steps)) == steps
