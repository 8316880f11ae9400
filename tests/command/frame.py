"""Shared by the tests of frames: a small frame, and changes to its tables."""

import csv
import io

from program import ProgramTest

JOINTS = [{"joint": "wall A", "x [in]": "0", "y [in]": "0", "z [in]": "0", "held": "fixed"},
          {"joint": "wall B", "x [in]": "0", "y [in]": "0", "z [in]": "24", "held": "fixed"},
          {"joint": "end", "x [in]": "30", "y [in]": "0", "z [in]": "24", "held": ""}]
TUBE = {"od [in]": "1.25", "wall [in]": "0.058", "material": "4130", "weld_zone [in]": "1"}
TUBES = [{"tube": "beam", "from": "wall B", "to": "end", **TUBE}, {"tube": "brace", "from": "wall A", "to": "end", **TUBE}]
LOADS = [{"run": "down", "joint": "end", "force_z [lbf]": "-1000"}]
FILES = "joints.csv", "tubes.csv", "loads.csv"
TOO_MUCH = "8000"  # lbf down at the end: more than the brace carries with a factor of 1.5, less than buckles it

TUBE_COLUMNS = """tube,part,run,from,to,length [in],od [in],wall [in],material,verdict,margin,governs,margin_as_built,margin_unforced,
    yield_factor,column_factor,interaction_factor,path_end,weight [lb],column_load [lbf],fit_axial [lbf],fit_moment [in-lbf],
    fit_stress [psi],axial [lbf],torque [in-lbf],peak_moment [in-lbf],peak_moment_at [in],peak_stress [psi],stress_use,
    moment_a [in-lbf],moment_a_clock [deg],moment_b [in-lbf],moment_b_clock [deg],remarks,note""".replace("\n    ", "")
JOINT_COLUMNS = """joint,run,move_x [in],move_y [in],move_z [in],turn_x [rad],turn_y [rad],turn_z [rad],react_x [lbf],react_y [lbf],
    react_z [lbf],react_mx [in-lbf],react_my [in-lbf],react_mz [in-lbf],locked_x [in],locked_y [in],locked_z [in]""".replace("\n    ", "")
RUN_COLUMNS = """run,verdict,margin,worst_tube,governs,critical_factor,path_end,weight [lb],mass [lb],centre_x [in],centre_y [in],
    centre_z [in],move [in],move_joint""".replace("\n    ", "")

ARCH_COLUMNS = "joint,weld_x [in],weld_y [in],weld_z [in],rise_x [in],rise_y [in],rise_z [in]"


def written(rows):
    columns = list(dict.fromkeys(column for row in rows for column in row))
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def changed(rows, row, **changes):
    """The rows with one changed; names of columns with blanks and brackets come as a dictionary under `cells`."""
    return [{**old, **changes.get("cells", {}), **{k: v for k, v in changes.items() if k != "cells"}} if i == row else old
            for i, old in enumerate(rows)]


class FrameTest(ProgramTest):
    def frame(self, joints=JOINTS, tubes=TUBES, loads=LOADS, folder="frame"):
        (self.folder / folder).mkdir(exist_ok=True)
        for name, rows in zip(FILES, (joints, tubes, loads)):
            self.file(f"{folder}/{name}", rows if isinstance(rows, str) else written(rows))

    def tubes(self, *words, **more):
        run = self.check("frame", *words, **more)
        self.assertEqual(run.err, "")
        return {(row["tube"], row["run"]): row for row in run.rows}

    def refused(self, *messages, **tables):
        """Each message begins with its file: 'tubes.csv:3: from: ...'."""
        self.frame(**tables)
        self.assertRun(self.check("frame"), 2, [f"frame/{message}" for message in messages], "")
