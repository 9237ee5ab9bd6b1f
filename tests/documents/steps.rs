//! The steps of the invented garment.

use furbelow::set::view::{Block, Part, RefTarget, Run, Step};

use super::fixture::{Fixture, length, link, mark, note, p, para, strong, t};

impl Fixture {
    /// Twelve steps in two stages.
    pub(super) fn steps(&self) -> Vec<Step> {
        let all = self.names();
        let step = |id: &str, number: u32, title: &str, why: &str, parts: Vec<Part>| Step {
            id: id.into(),
            number,
            stage: None,
            title: title.into(),
            why: if why.is_empty() { vec![] } else { vec![t(why)] },
            needs: vec![],
            parts,
        };
        let part = |blocks: Vec<Block>, figures: &[&str]| Part {
            blocks,
            figures: figures.iter().map(|id| (*id).to_string()).collect(),
        };
        let mut steps = Vec::new();
        let mut one = step("flounce", 1, "Gather the flounce to the petticoat", "A flounce in quarters spreads its fullness evenly; a flounce in one go does not.", vec![
            part(vec![
                p(vec![t("Join the strips into a ring with narrow seams. Press them one way. Hem the lower edge with a turn of "), length(1.3), t(".")]),
                p(vec![t("Run two gathering threads along the top. Draw each quarter up to "), self.number("A", |w| w / 2.0 + 40.0), t(" and knot it.")]),
            ].into_iter().chain(self.strips(vec![self.row("A", "a quarter, drawn up", |w| w / 2.0 + 40.0)])).chain([
                note(vec![t("If the gathers bunch at the knots, stroke them down with a blunt needle, one by one, before you sew.")]),
            ]).collect(), &[]),
        ]);
        one.stage = Some("The petticoat".into());
        one.needs = vec![link(RefTarget::Piece, "flounce", ""), t(", the petticoat’s panels, gathering thread")];
        steps.push(one);
        steps.push(step("petticoat-band", 2, "Set the petticoat on its band", "", vec![part(vec![para("Gather the top the same way. Pin the quarters to the quarters of the band, right sides together, and sew with the gathers upwards, where you can see them.")], &[])]));
        let mut three = step("panels", 3, "Join the panels and leave the opening", "Three straight seams; the last one stops short, and that is the placket.", vec![part(vec![
            p(vec![t("Lay two panels right sides together, selvedge on selvedge. Sew "), length(1.5), t(" from the edge, from hem to top.")]),
            p(vec![t("In the last seam stop "), self.number("A", |w| 18.0 + w / 30.0), t(" below the top and fasten off. Press the seams open.")]),
            note(vec![t("If the seam ripples, the selvedge is tighter than the cloth: snip it every hand’s breadth and press again.")]),
        ].into_iter().chain(self.strips(vec![self.row("A", "opening, from the top", |w| 18.0 + w / 30.0)])).collect(), &["panel"])]);
        three.stage = Some("The skirt".into());
        three.needs = vec![link(RefTarget::Piece, "panel", ""), t(" ("), link(RefTarget::Figure, "panel", ""), t(")")];
        steps.push(three);
        steps.push(step("hem", 4, "Hem the skirt before you pleat it", "The top edge takes the dip, so the hem can stay on the straight grain.", vec![part(vec![
            p(vec![t("Turn "), length(1.0), t(" and then "), length(5.0), t(" to the wrong side. Pin across the edge and slip it down by hand, catching one thread of the wool.")]),
            Block::Sizes { words: "Sizes 6 to 10".into(), sizes: all.iter().take(3).cloned().collect(), blocks: vec![para("Your hem may be a thumb deeper if the skirt is for a tall wearer: there is cloth for it.")] },
        ].into_iter().filter(|block| !self.one() || !matches!(block, Block::Sizes { .. })).collect(), &[])]));
        steps.push(step(
            "dip",
            5,
            "Cut the dip out of the top edge",
            "The skirt is drawn up sideways, so the curve is wide where the waistband is narrow.",
            vec![part(
                vec![
                    p(vec![
                        t("Fold the skirt at the centre front. Measure "),
                        self.number("A", |w| w * 0.9),
                        t(" along the top and mark; measure "),
                        self.number("B", |w| 4.0 + w / 60.0),
                        t(" down the fold and mark. Join the marks with the card curve."),
                    ]),
                    p(vec![strong("Cut through both layers. "), t("Lay the offcut aside: it proves the curve later.")]),
                ]
                .into_iter()
                .chain(self.strips(vec![
                    self.row("A", "along the top, from the fold", |w| w * 0.9),
                    self.row("B", "down the fold", |w| 4.0 + w / 60.0),
                ]))
                .collect(),
                &[],
            )],
        ));
        steps.push(step("grid", 6, "Mark the grid on the wrong side", "Pleats are only as even as the dots you sew through.", vec![part(vec![
            p(vec![t("Fold the top edge over by "), length(2.5), t(" along the curve and press. Draw the first row "), length(1.3), t(" below the fold, the second and third below it, each the same distance down. Upright guides stand every fourth stitch.")]),
            note(vec![t("Chalk rubs off under the hand. If you must leave the work overnight, run a thread along every fifth guide.")]),
        ], &["grid"])]));
        steps.push(step("rows", 7, "Sew the rows", "Each row is one thread, and all rows go in and out at the same guide.", vec![
            part(vec![
                p(vec![t("Thread a long needle with buttonhole thread, a span longer than the panel, and knot it. Go in at the first guide and take stitches of "), Run::value("¼\u{a0}in (6\u{a0}mm)"), t(", in and out, to the end. Leave the tail hanging.")]),
                p(vec![t("Count as you go: "), if self.one() { Run::value("328") } else { mark("A") }, t(" pleats in all, "), if self.one() { Run::value("109") } else { mark("B") }, t(" in the first panel.")]),
            ].into_iter().chain(self.strips(vec![self.counts("A", "pleats in all", |w| (w * 4.0 / 4.0).floor() * 4.0), self.counts("B", "pleats in the first panel", |w| (w * 4.0 / 12.0).floor() * 4.0)])).collect(), &[]),
            part(vec![
                p(vec![strong("Draw the rows up. "), t("Knot all the threads of one side together and pull from the other, a hand’s breadth at a time, easing the pleats along so that none is crushed. Stop when the top edge measures "), self.number("A", |w| (w + 2.5) / 2.0), t(": half your waist seam.")]),
                para("The pleats should stand like organ pipes, all of one height. If some lie over, a stitch was missed: find where the rows no longer stand above each other, and take that row out as far as there."),
                note(vec![t("If your edge will not close, your cloth is thicker than ours. Turn to “My own swatch”, "), link(RefTarget::Page, "swatch", ""), t(".")]),
            ].into_iter().chain(self.strips(vec![self.row("A", "half the top edge, drawn up", |w| (w + 2.5) / 2.0)])).collect(), &["pleats"]),
        ]));
        steps.push(step("piping", 8, "Pipe the waistband", "The cord gives the pleats an edge to stand against.", vec![part(vec![
            p(vec![t("Fold the bias strip ("), link(RefTarget::Piece, "bias", ""), t(") round the cord and sew close to it. Lay it along the lower edge of the band, raw edges together.")]),
            Block::List { ordered: false, items: vec![vec![t("Clip the seam allowance round the dip every "), length(1.0), t(".")], vec![t("Ease the cord; never stretch it.")]] },
        ], &[])]));
        steps.push(step("sew-on", 9, "Sew the pleats on, one by one", "One stitch a pleat, through its outer top only, lets the rest swing.", vec![part(vec![
            p(vec![t("Hold the band and the skirt right sides together. Match centre, sides and quarters. With doubled, waxed thread take one stitch through the band and the crest of each pleat (letter "), t("A"), t(" in "), link(RefTarget::Figure, "pleats", ""), t(").")]),
            para("When it is right, the pleats turn outwards by themselves as you open the seam."),
        ], &[])]));
        steps.push(step("placket", 10, "Close the placket", "", vec![part(vec![
            p(vec![t("Face both edges of the opening with the wool’s own selvedge. Sew the hooks to the left back, "), Run::value("1\u{a0}¼\u{a0}in (3.2\u{a0}cm)"), t(" apart, the first at the waist, the bars opposite.")]),
            para("Sew the last hook at the very end of the opening: that is where the seam tears."),
            note(vec![t("If it gapes between two hooks, sew a third between them. Nobody counts hooks.")]),
        ], &["placket"])]));
        steps.push(step("line", 11, "Line the waistband", "", vec![part(vec![para("Turn in the inner band and fell it over the row of stitches, catching the threads of the pleating rows as you go.")], &[])]));
        steps.push(step("finish", 12, "Take the rows out, or leave them", "", vec![part(vec![para("The uppermost row stays. The lower two may come out: the skirt springs from the waist where they did. Hang it for a night by its band, and level nothing: the hem was level before you began.")], &[])]));
        steps
    }
}
