"""The fit of certainty against rows whose answer is known."""

import unittest

import numpy as np

import certainty


def rows(count, weights, sets=2):
    dice = np.random.default_rng(5)
    cells = []
    for i in range(count):
        evidence = dice.normal(size=len(weights) - 1)
        p = 1 / (1 + np.exp(-(evidence @ weights[:-1] + weights[-1])))
        cells.append(["melody", f"set{i % sets}", f"song{i % 40}", str(int(dice.random() < p)), "1", "0.5"]
                     + [str(x) for x in evidence])
    return certainty.Rows(cells, [f"e{i}" for i in range(len(weights) - 1)])


class CertaintyTest(unittest.TestCase):
    def test_finds_the_weights_that_made_the_rows(self):
        true = np.array([1.5, -0.7, 0.4])
        made = rows(20000, true)
        fitted = certainty.fit(made.evidence, made.right, made.weight, ridge=0)
        np.testing.assert_allclose(fitted, true, atol=0.08)

    def test_sets_alike_ask_for_no_temper(self):
        _, (slope, bias) = certainty.tempered(rows(20000, np.array([1.5, -0.7, 0.4])))
        self.assertAlmostEqual(slope, 1, delta=0.05)
        self.assertAlmostEqual(bias, 0, delta=0.08)

    def test_error_by_hand(self):
        """Of ten statements of .8, eight are right: no error. Of .9 and weight 3, none; of .5 and weight 1, half: .9 * 3 / 4."""
        stated = np.full(10, 0.8)
        self.assertAlmostEqual(certainty.error(stated, stated, np.ones(10)), 0)
        self.assertAlmostEqual(certainty.error(np.array([0.9, 0.5]), np.array([0, 0.5]), np.array([3.0, 1.0])), 0.675)

    def test_few_honest_statements_seem_wrong_by_chance(self):
        few = certainty.by_chance(np.linspace(0.85, 0.95, 30), np.ones(30))
        many = certainty.by_chance(np.linspace(0.5, 0.99, 30000), np.ones(30000))
        self.assertGreater(few, 0.05)
        self.assertLess(many, 0.01)


if __name__ == "__main__":
    unittest.main()
