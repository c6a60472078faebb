"""Parts late and wrong, sessions lost: learning is counting, and nothing is counted twice."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from bareshell.plan.attendance import Attended, attendance
from bareshell.plan.lateness import (
    OWN_WEIGHT,
    PRIOR_WEIGHT,
    Delay,
    OrderOutcome,
    Share,
    SourcePrior,
    learned,
)
from bareshell.plan.problem import Luck

PRIOR = SourcePrior(late_share=0.2, late_mean_days=5.0, wrong_share=0.05, lead_days=10.0)


def came(supplier: str, late: float, *, wrong: int = 0, source: str = "general") -> OrderOutcome:
    return OrderOutcome(source, supplier, late, 0.0, 1 + wrong, wrong, 10.0 + late)


outcomes = st.lists(
    st.builds(
        came,
        st.sampled_from(["a", "b", ""]),
        st.sampled_from([0.0, 0.0, 2.0, 30.0]),
        wrong=st.integers(0, 1),
        source=st.sampled_from(["general", "club"]),
    ),
    max_size=25,
)


def test_nothing_known_is_what_was_said_beforehand() -> None:
    belief = learned((), "general", "", PRIOR)
    assert (belief.late.mean, belief.delay.mean_days, belief.lead_days) == (0.2, 5.0, 10.0)
    assert belief.late.yes + belief.late.no == pytest.approx(PRIOR_WEIGHT)
    assert belief.orders == 0


@given(outcomes)
def test_a_class_is_counted_by_its_own_orders_alone(orders: list[OrderOutcome]) -> None:
    belief = learned(orders, "general", "", PRIOR)
    general = [o for o in orders if o.source_class == "general"]
    late = sum((o.days_late or 0) > 0 for o in general)
    assert belief.late.mean == pytest.approx(
        (0.2 * PRIOR_WEIGHT + late) / (PRIOR_WEIGHT + len(general))
    )
    assert belief.orders == len(general)
    assert belief.came_late == late


@given(outcomes)
def test_a_suppliers_own_orders_are_not_counted_a_second_time(orders: list[OrderOutcome]) -> None:
    belief = learned(orders, "general", "a", PRIOR)
    own = [o for o in orders if (o.source_class, o.supplier) == ("general", "a")]
    others = [o for o in orders if o.source_class == "general" and o.supplier != "a"]
    of_class = learned(others, "general", "", PRIOR)
    late = sum((o.days_late or 0) > 0 for o in own)
    assert belief.late.mean == pytest.approx(
        (of_class.late.mean * OWN_WEIGHT + late) / (OWN_WEIGHT + len(own))
    )


@given(outcomes)
def test_shares_stay_shares_and_delays_stay_above_nothing(orders: list[OrderOutcome]) -> None:
    for supplier in ("", "a", "never heard of"):
        belief = learned(orders, "general", supplier, PRIOR)
        assert 0 < belief.late.mean < 1
        assert 0 < belief.wrong.mean < 1
        assert belief.delay.mean_days > 0


def test_a_supplier_with_a_record_of_its_own_is_believed_by_it() -> None:
    orders = [came("slow", 20.0) for _ in range(12)] + [came("prompt", 0.0) for _ in range(12)]
    slow, prompt = (learned(orders, "general", name, PRIOR) for name in ("slow", "prompt"))
    new = learned(orders, "general", "new", PRIOR)
    assert slow.late.mean > 0.75
    assert prompt.late.mean < 0.2
    assert prompt.late.mean < new.late.mean < slow.late.mean
    assert slow.delay.mean_days > 14


def test_an_order_that_is_overdue_counts_as_late_and_its_days_so_far() -> None:
    """The exponential with a gamma rate takes a delay cut short by adding its days alone."""
    still_out = OrderOutcome("general", "", None, overdue_days=40.0)
    belief = learned([still_out], "general", "", PRIOR)
    assert belief.late.mean == pytest.approx((0.2 * PRIOR_WEIGHT + 1) / (PRIOR_WEIGHT + 1))
    assert belief.delay == Delay.about(5.0).seen(0, 40.0)
    assert belief.delay.mean_days > 20
    not_due = OrderOutcome("general", "", None, overdue_days=0.0)
    assert learned([not_due], "general", "", PRIOR).late == learned((), "general", "", PRIOR).late


def test_delays_cut_short_do_not_make_a_slow_source_look_quick() -> None:
    """A known mean of 12 days, half of the delays not yet over: found again within a tenth."""
    dice = np.random.default_rng(3)
    orders = []
    for _ in range(2000):
        late, looked = dice.exponential(12.0), dice.exponential(12.0)
        if late < looked:
            orders.append(OrderOutcome("general", "", late))
        else:
            orders.append(OrderOutcome("general", "", None, looked))
    assert learned(orders, "general", "", PRIOR).delay.mean_days == pytest.approx(12.0, rel=0.1)


def test_the_share_to_go_by_is_scipys_mean_of_the_beta() -> None:
    share = Share(3.5, 9.0)
    assert share.mean == pytest.approx(stats.beta(3.5, 9.0).mean())
    assert Delay(5, 40).mean_days == pytest.approx(stats.lomax(5, scale=40).mean())


def test_sessions_lost_are_learned_from_sessions_lost() -> None:
    nothing = attendance(Attended())
    record = attendance(
        Attended(weeks=60, weeks_lost=15, sessions=90, sessions_lost=0, helped=20, no_shows=10)
    )
    assert nothing.lost_week.mean == pytest.approx(0.05)
    assert record.lost_week.mean == pytest.approx(16 / 80)
    assert record.lost_session.mean < nothing.lost_session.mean
    assert record.no_show.mean > 0.35
    luck = record.laid_over(Luck())
    assert luck.no_show_share == pytest.approx(record.no_show.mean)
    assert luck.no_show_weight == pytest.approx(8 + 20)
    assert luck.pace_spread == Luck().pace_spread


def test_an_owner_who_never_comes_still_leaves_something_to_plan_with() -> None:
    lost = attendance(Attended(weeks=1000, weeks_lost=1000))
    assert lost.laid_over(Luck()).lost_week_share == 0.95
