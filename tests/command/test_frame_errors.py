"""Frames that cannot be checked: what is wrong with them, where, and what is allowed."""

from frame import FILES, JOINTS, LOADS, TUBE, TUBES, FrameTest, changed, written
from program import run_tests


class Files(FrameTest):
    def test_a_missing_table(self):
        def told(folder, names):
            return f"{folder}: has no {names}: a frame's folder has all three; 'railbow new --frame FOLDER' writes them"

        for name in FILES:
            self.frame()
            (self.folder / "frame" / name).unlink()
            self.assertRun(self.check("frame"), 2, told("frame", name), "")
        (self.folder / "frame/tubes.csv").unlink()
        self.assertRun(self.check("frame"), 2, told("frame", "tubes.csv or loads.csv"), "")
        (self.folder / "frame/joints.csv").unlink()
        self.assertRun(self.check("frame/"), 2, told("frame/", "joints.csv, tubes.csv or loads.csv"), "")

    def test_the_other_tables_are_read_where_one_is_missing(self):
        self.frame(joints=changed(JOINTS, 2, cells={"x [in]": ""}))
        (self.folder / "frame/loads.csv").unlink()
        run = self.check("frame")
        self.assertEqual((run.status, run.out), (2, ""))
        self.assertRegex(run.err, r"^railbow: frame: has no loads\.csv: .*\nrailbow: frame/joints\.csv:4: x: is empty: a value is needed\n$")

    def test_a_table_that_is_a_folder(self):
        self.frame()
        (self.folder / "frame/loads.csv").unlink()
        (self.folder / "frame/loads.csv").mkdir()
        self.assertRun(self.check("frame"), 2, "frame/loads.csv: cannot read: Is a directory", "")

    def test_no_rows(self):
        for name, rows in zip(("joints", "tubes", "loads"), (JOINTS, TUBES, LOADS)):
            header = written(rows).splitlines()[0] + "\n"
            self.frame(**{name: header})
            run = self.check("frame")
            self.assertEqual((run.status, run.out), (2, ""))
            self.assertIn(f"railbow: frame/{name}.csv: has a header but no row\n", run.err)

    def test_a_frame_is_checked_alone(self):
        self.frame()
        self.cases({})
        told = "check: 'frame' is a folder, and a frame is checked alone: name no other file or folder with it"
        for words in (["frame", "cases.csv"], ["cases.csv", "frame"], ["frame", "frame"], ["-", "frame"]):
            self.assertRun(self.check(*words), 2, told, "")

    def test_options_of_a_frame(self):
        self.cases({})
        self.assertRun(self.check("cases.csv", "--of", "runs"), 2, "check: --of tubes, joints, runs or arch is for a frame: name its folder", "")
        self.assertRun(self.check("cases.csv", "--all"), 2, "check: --all is for a frame: name its folder", "")
        self.frame()
        self.assertRun(self.check("frame", "--of", "nodes"), 2, "--of: 'nodes' is not one of tubes, joints, runs, arch, details", "")


class Cells(FrameTest):
    def test_every_bad_cell_of_all_tables_is_reported(self):
        self.refused("joints.csv:3: x: '2 in' is not a number: the unit belongs in the header, as in 'x [in]'",
                     "joints.csv:4: mass: '-1' is out of range: must be at least 0",
                     "tubes.csv:2: wall: is empty: a value is needed",
                     "tubes.csv:2: end_a: 'welded' is neither a number nor rigid or pinned",
                     "tubes.csv:3: fixity: '0' is out of range: must be above 0",
                     "loads.csv:2: factor: '-1' is out of range: must be above 0",
                     joints=changed(changed(JOINTS, 1, cells={"x [in]": "2 in"}), 2, cells={"mass [lb]": "-1"}),
                     tubes=changed(changed(TUBES, 0, cells={"wall [in]": "", "end_a": "welded"}), 1, fixity="0"),
                     loads=changed(LOADS, 0, factor="-1"))

    def test_a_miss_of_unknown_direction(self):
        for column in "miss_a_clock", "miss_b_clock":
            self.refused(f"tubes.csv:2: {column}: 'any' is not allowed here: give a clock: a frame takes no miss of unknown direction; "
                         "check it at 0, 90, 180 and 270", tubes=changed(TUBES, 0, cells={column.removesuffix("_clock") + " [in]": "0.1", column: "any"}))
            self.refused(f"tubes.csv:2: {column}: 'all' is not a number", tubes=changed(TUBES, 0, cells={column: "all"}))

    def test_held(self):
        for held in "x y q", "fixd", "xyz", "0":
            word = held.split()[-1]
            self.refused(f"joints.csv:2: held: '{word}' is not known: use fixed, pinned, x, y, z, rx, ry or rz; several stand with blanks between them",
                         joints=changed(JOINTS, 0, held=held))

    def test_columns(self):
        self.refused("tubes.csv:1: unknown column 'walls'; did you mean 'wall'?", "tubes.csv:1: wall is missing",
                     tubes=written(TUBES).replace("wall [in]", "walls [in]"))
        self.refused("joints.csv:1: x: needs its unit in the header: in, ft, mm, cm or m, as in 'x [in]'",
                     joints=written(JOINTS).replace("x [in]", "x"))

    def test_material_and_sizes(self):
        run_all = {"tubes": changed(TUBES, 0, material="4140", cells={"bow [in]": "9"})}
        self.frame(**run_all)
        run = self.check("frame")
        self.assertEqual((run.status, run.out), (2, ""))
        self.assertIn("frame/tubes.csv:2: material: '4140' is not in", run.err)
        self.assertIn("frame/tubes.csv:2: bow: gives a slope of more than 10 deg", run.err)
        self.refused("tubes.csv:2: wall: must be above 0 and at most half of od (a solid bar)",
                     tubes=changed(TUBES, 0, cells={"wall [in]": "0.7"}))


class Names(FrameTest):
    def test_named_twice(self):
        self.refused("joints.csv:5: joint: 'end' stands in line 4 already", joints=[*JOINTS, JOINTS[2]])
        self.refused("tubes.csv:4: tube: 'beam' stands in line 2 already", tubes=[*TUBES, TUBES[0]])

    def test_unknown(self):
        self.refused("tubes.csv:2: from: 'wall C' is not in joints.csv; did you mean 'wall A'?", tubes=changed(TUBES, 0, **{"from": "wall C"}))
        self.refused("tubes.csv:3: to: 'nowhere' is not in joints.csv", tubes=changed(TUBES, 1, to="nowhere"))
        self.refused("loads.csv:2: joint: 'ends' is not in joints.csv; did you mean 'end'?", loads=changed(LOADS, 0, joint="ends"))
        self.refused("loads.csv:2: tube: 'bean' is not in tubes.csv; did you mean 'beam'?", loads=changed(LOADS, 0, joint="", tube="bean"))

    def test_a_name_that_a_bad_row_may_have_is_not_unknown(self):
        self.refused("joints.csv:4: x: is empty: a value is needed", joints=changed(JOINTS, 2, cells={"x [in]": ""}))

    def test_letters_of_names_count(self):
        self.refused("tubes.csv:2: to: 'End' is not in joints.csv; did you mean 'end'?", tubes=changed(TUBES, 0, to="End"))


class Frames(FrameTest):
    def test_a_tube_to_itself_or_of_no_length(self):
        self.refused("tubes.csv:2: to: must be another joint than from", tubes=changed(TUBES, 0, to="wall B"))
        twin = {**JOINTS[1], "joint": "twin"}
        self.refused("tubes.csv:4: to: lies at the same place as from: the tube has no length", joints=[*JOINTS, twin],
                     tubes=[*TUBES, {"tube": "none", "from": "wall B", "to": "twin", **TUBE}])

    def test_two_tubes_between_the_same_joints(self):
        self.frame(tubes=[*TUBES, {**TUBES[0], "tube": "second"}])
        self.assertEqual(self.check("frame").err, "")

    def test_a_joint_that_no_tube_reaches(self):
        alone = {**JOINTS[2], "joint": "alone", "x [in]": "60"}
        self.refused("joints.csv:5: joint: 'alone' is reached by no tube", joints=[*JOINTS, alone])

    def test_not_held(self):
        self.frame(joints=[{**joint, "held": ""} for joint in JOINTS])
        run = self.check("frame")
        self.assertEqual((run.status, run.out), (2, ""))
        self.assertRegex(run.err, r"^railbow: frame/joints.csv:\d: held: the frame is not held: joint '[a-zA-Z ]+' moves freely: .+\n$")

    def test_the_joint_and_direction_that_are_free(self):
        self.frame(tubes=[{**tube, "end_a": "pinned", "end_b": "pinned"} for tube in TUBES])
        told = r"^railbow: frame/joints.csv:4: held: the frame is not held: joint 'end' moves freely: to the (left \(\+y\)|right \(-y\))\n$"
        self.assertRegex(self.check("frame").err, told)

    def test_a_moment_where_no_tube_is_rigid(self):
        pinned = [{**tube, "end_b": "pinned"} for tube in TUBES]
        loads = [{"run": "twist", "joint": "end", "moment_y [in-lbf]": "100"}]
        self.refused("loads.csv:2: moment_y: acts on a joint to which no tube is rigid",
                     joints=changed(JOINTS, 2, held="y"), tubes=pinned, loads=loads)


class Misses(FrameTest):
    def test_a_miss_without_a_clock(self):
        self.refused("tubes.csv:2: miss_a_clock: is needed where there is a miss", tubes=changed(TUBES, 0, cells={"miss_a [in]": "0.1"}))
        self.refused("tubes.csv:2: miss_b_clock: is needed where there is a miss", tubes=changed(TUBES, 0, cells={"miss_b [in]": "0.1"}))
        self.frame(tubes=changed(TUBES, 0, cells={"miss_a [in]": "0"}))
        self.assertEqual(self.check("frame").err, "")

    def test_a_miss_at_an_end_that_does_not_hold(self):
        for end in "a", "b":
            for column, pinned in ((f"end_{end}", "pinned"), (f"end_{end} [in-lbf/rad]", "0")):
                cells = {column: pinned, f"miss_{end} [in]": "0.1", f"miss_{end}_clock": "90"}
                self.refused(f"tubes.csv:2: miss_{end}: needs an end_{end} that holds a moment (rigid or a stiffness above 0): a pinned end takes any angle",
                             tubes=changed(TUBES, 0, cells=cells))


class Loads(FrameTest):
    def test_a_joint_and_a_tube(self):
        self.refused("loads.csv:2: tube: the row names a joint too: a load acts on one of them", loads=changed(LOADS, 0, tube="beam"))

    def test_what_a_joint_or_a_tube_cannot_take(self):
        on_joint = {"at [in]": "3", "spread_y [lbf/in]": "1", "vertical_g": "1"}
        self.refused("loads.csv:2: at: acts on a tube: name one in this row in place of the joint",
                     "loads.csv:2: spread_y: acts on a tube: name one in this row in place of the joint",
                     "loads.csv:2: vertical_g: acts on the whole frame: give it in a row of the run that names no joint and no tube",
                     loads=changed(LOADS, 0, cells=on_joint))
        self.refused("loads.csv:2: moment_x: acts on a joint: name one in this row in place of the tube",
                     loads=[{"run": "a", "tube": "beam", "moment_x [in-lbf]": "2"}])
        self.refused("loads.csv:2: force_z: acts on a joint or a tube: name one in this row",
                     "loads.csv:2: moment_x: acts on a joint: name one in this row",
                     "loads.csv:2: spread_y: acts on a tube: name one in this row",
                     loads=[{"run": "a", "force_z [lbf]": "2", "moment_x [in-lbf]": "2", "spread_y [lbf/in]": "1"}])

    def test_outside_the_tube(self):
        self.refused("loads.csv:2: at: must lie between 0 and the length of the tube",
                     loads=[{"run": "a", "tube": "beam", "force_z [lbf]": "2", "at [in]": "30.1"}])

    def test_two_factors_in_a_run(self):
        self.refused("loads.csv:4: factor: is 2, but line 2 gives its run 1.5: a run has one",
                     "loads.csv:4: factor_yield: is 1.2, but line 3 gives its run 1.1: a run has one",
                     loads=[{**LOADS[0], "factor": "1.5"}, {**LOADS[0], "factor_yield": "1.1"},
                            {**LOADS[0], "factor": "2", "factor_yield": "1.2"}, {**LOADS[0], "run": "other", "factor": "3"}])

    def test_no_run_is_named(self):
        self.refused("loads.csv:2: run: is empty: a value is needed", loads=changed(LOADS, 0, run=""))


class Many(FrameTest):
    def test_messages_of_a_kind_are_capped(self):
        self.frame(tubes=[{**TUBES[0], "tube": f"tube {i}", "to": f"nowhere {i}"} for i in range(60)])
        run = self.check("frame")
        self.assertEqual(run.status, 2)
        self.assertLess(len(run.err.splitlines()), 50)
        self.assertIn("more messages of this kind are not shown", run.err)

    def test_names_that_steer_a_terminal_or_hold_anything(self):
        for name in "\x1b[31mred", "a,b\"c", "=1+1", "ü" * 60, "a\nb", "<script>", "%s%n", "'":
            self.frame(tubes=changed(TUBES, 0, to=name))
            run = self.check("frame")
            self.assertEqual((run.status, run.out), (2, ""))
            self.assertTrue(all(32 <= ord(c) for c in run.err.replace("\n", "")), run.err)
            self.assertEqual(run.err.count("\n"), 1)


if __name__ == "__main__":
    run_tests()
