"""The examples for inspect, release, pull, sight and sticks."""

from program import run_tests
from shop import ShopTest


class Examples(ShopTest):
    def test_they_run(self):
        folder = self.installed.source / "cases"
        for words, status in [(["inspect", "--spec", "spec.csv", "--cases", "parts.csv", "readings.csv"], 2),
                              (["release", "cuts.csv"], 0), (["pull", "--steps", "4", "horns.csv"], 0), (["sight", "sight.csv"], 0),
                              (["sticks", "sticks_parts.csv", "--stock", "sticks_stock.csv"], 0)]:
            words = [folder / word if word.endswith(".csv") else word for word in words]
            run = self.run_program(*words, "--format", "text")
            self.assertRun(run, status)
            self.assertReadable(run.out)


if __name__ == "__main__":
    run_tests()
