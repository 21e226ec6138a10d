import pytest

from galloon.cutting import length_to_buy, shop_text
from galloon.errors import BadValue


@pytest.mark.parametrize(
    ("need", "unit", "buy", "text"),
    [
        (1.0, "cm", 100.0, "10 cm"),
        (600.0, "cm", 600.0, "60 cm"),
        (600.001, "mm", 700.0, "70 cm"),
        (1150.0, "cm", 1200.0, "1.2 m"),
        (500.0, "in", 571.5, "5/8 yd"),
        (914.4, "in", 914.4, "1 yd"),
        (1100.0, "in", 1143.0, "1 1/4 yd"),
    ],
)
def test_a_length_is_rounded_up_to_what_shops_sell(need, unit, buy, text):
    assert length_to_buy(need, unit) == pytest.approx(buy)
    assert shop_text(length_to_buy(need, unit), unit) == text


def test_a_length_that_is_no_length_is_refused():
    with pytest.raises(BadValue):
        length_to_buy(float("nan"), "cm")
