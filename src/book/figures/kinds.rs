//! The kinds of figure a garment file can ask for, and how each is fed.

use crate::draw::{
    self, BiasStrips, Boning, CartridgePleats, Catch, FlatPleats, GatherRows, HemFigure, HemKind, Hooks, Look,
    MarkingGrid, Measure, PipingFigure, Placket, PleatKind, Press, Pressing, Ruffle, SeamFigure, SeamKind, SmockStage,
    Smocking, SwatchFigure, Undrawable, Vent,
};
use crate::fault::{Fault, did_you_mean};
use crate::reckon::Outcome;
use crate::units::{Length, Show};

use super::params::Params;
use super::{parts, pieces, sets, views, worn};

type Drawn = Result<draw::Figure, Fault>;

/// A kind of figure.
pub struct Kind {
    /// Its name in the garment file.
    pub name: &'static str,
    /// The keys it knows besides `kind`, `of`, `caption` and `alt`.
    pub inputs: &'static [&'static str],
    /// What it shows.
    pub doc: &'static str,
    pub(super) draw: fn(&Params<'_>, &Look) -> Drawn,
}

const fn kind(
    name: &'static str,
    inputs: &'static [&'static str],
    doc: &'static str,
    draw: fn(&Params<'_>, &Look) -> Drawn,
) -> Kind {
    Kind { name, inputs, doc, draw }
}

const PLEATS: &[&str] = &["stitch", "rows", "row_spacing", "pitch", "pleats", "flat", "seam"];
const PIPING: &[&str] = &["cord", "reveal", "allowance", "strip"];
const RUFFLE: &[&str] = &["name", "flat", "edge", "depth", "parts"];

/// Every kind, in the order of the manual.
pub const KINDS: &[Kind] = &[
    kind("skirt-view", views::INPUTS, "a skirt or petticoat as it hangs, front or back", views::skirt),
    kind("bodice-view", worn::BODICE, "a bodice as it is worn, front or back, from its own pieces", worn::bodice),
    kind("gown-view", worn::GOWN, "bodice, sleeves and skirt as they are worn, from their own pieces", worn::gown),
    kind(
        "flat-piece",
        &["piece", "wrong_side", "card", "measures"],
        "a piece laid flat, with grain, allowances and notches",
        pieces::flat,
    ),
    kind(
        "together",
        &["over", "over_edge", "under", "under_edge", "wrong_sides"],
        "two pieces laid together along the edges to be sewn",
        pieces::together,
    ),
    kind(
        "marking-grid",
        &["stitch", "rows", "row_spacing", "first_row", "guide_every", "raw"],
        "rows and guide lines marked on the cloth",
        grid,
    ),
    kind("cartridge-stitched", PLEATS, "rows of gauging stitches, not yet drawn up", |p, l| {
        pleats(p, l, draw::cartridge_stitched)
    }),
    kind("cartridge-drawn-up", PLEATS, "cartridge pleats drawn up, from the front", |p, l| {
        pleats(p, l, draw::cartridge_drawn_up)
    }),
    kind("cartridge-above", PLEATS, "cartridge pleats from above", |p, l| pleats(p, l, draw::cartridge_above)),
    kind("cartridge-section", PLEATS, "cartridge pleats in section", |p, l| pleats(p, l, draw::cartridge_section)),
    kind("cartridge-sewn", PLEATS, "cartridge pleats sewn on, pleat by pleat", |p, l| {
        pleats(p, l, draw::cartridge_sewn)
    }),
    kind(
        "pleats-to-shaped-edge",
        sets::SHAPED,
        "pleats sewn to an edge that dips, from the centre outward: `dip`, or the `edge` of a piece",
        sets::pleats_to_shaped_edge,
    ),
    kind("swatch", &["swatch", "layers"], "a swatch flat and drawn up, with where to measure", swatch),
    kind(
        "dip",
        &["width", "depth", "ratio", "shape", "allowance", "meets"],
        "the dip of the waist laid on the flat panel",
        dip,
    ),
    kind(
        "gather-rows",
        &["rows", "row_spacing", "first_row", "flat", "seam"],
        "rows of gathering stitches, flat and drawn up",
        gathers,
    ),
    kind("ruffle-marks", RUFFLE, "a ruffle and its edge, marked in equal parts", |p, l| {
        ruffle(p, l, draw::ruffle_marks)
    }),
    kind("ruffle-sewn", RUFFLE, "a ruffle sewn to its edge", |p, l| ruffle(p, l, draw::ruffle_sewn)),
    kind("piping-section", PIPING, "piping prepared, in section", |p, l| piping(p, l, draw::piping_section)),
    kind("piping-in-seam", PIPING, "piping in its seam, in section", |p, l| piping(p, l, draw::piping_in_seam)),
    kind(
        "bias-strips",
        &["width", "height", "strip", "along_selvage", "strips", "join"],
        "bias strips cut from a rectangle, and joined",
        bias,
    ),
    kind(
        "piping-point",
        &["name", "width", "depth", "allowance", "short"],
        "piping taken round a point: clipped once, and turned; `of` names the dip",
        parts::piping_point,
    ),
    kind(
        "fold-over",
        &["depth", "stay"],
        "a top edge folded to the wrong side, with or without a cloth in the fold",
        parts::fold_over,
    ),
    kind(
        "tied-threads",
        &["rows", "pairs", "place"],
        "rows of thread tied in twos with a flat knot: `pairs` is `halves` or `rows`",
        parts::tied_threads,
    ),
    kind("hem", &["style", "depth", "turn", "by_hand"], "a hem in section: `once`, `twice` or `rolled`", hem),
    kind(
        "seam",
        &["style", "allowance", "first", "press"],
        "a seam in section: `plain`, `french-first`, `french-second`, `felled`, `bound`, `faced`, `mounted`, \
         `felled-lining`",
        seam,
    ),
    kind(
        "pressing",
        &["what", "press", "toward", "pressing_cloth"],
        "how a seam is pressed: `open` or `one-side`; or cloth without a seam: `flat`",
        pressing,
    ),
    kind("placket", &["opening", "lap", "one_layer"], "a lapped placket", placket),
    kind(
        "hooks",
        &["edge", "catch", "inset"],
        "hooks along an edge with their distances; `catch` is `bars`, `eyes` or `snaps`",
        hooks,
    ),
    kind(
        "lacing",
        &["edge", "inset", "gap", "way", "behind", "boned"],
        "eyelets down two edges with their distances, and the lace: `way` is `spiral` or `cross`",
        sets::lacing,
    ),
    kind(
        "sleeve-set",
        &["join"],
        "a sleeve head and the armhole it is set into, with the points that meet and the ease",
        sets::sleeve_set,
    ),
    kind(
        "wing",
        &["length", "depth", "allowance", "tabs", "free"],
        "a wing, or a row of tabs, basted to the armhole before the sleeve is set in",
        parts::wing,
    ),
    kind(
        "matched",
        &["pieces"],
        "pieces side by side, the edges that are sewn together under one letter",
        pieces::matched,
    ),
    kind("motifs", sets::MOTIFS, "printed motifs laid out on a piece, or on two across their seam", sets::motifs),
    kind("basting", &["piece", "gap", "under"], "two layers basted together", pieces::basting),
    kind("block", &["piece", "margin", "why"], "a piece within the block it is cut as", pieces::block),
    kind(
        "piping-clipped",
        &["piece", "edge", "allowance", "clips"],
        "piping clipped round a curved edge",
        pieces::piping_clipped,
    ),
    kind("vent", &["height", "lap", "hem"], "a vent at a hem", vent),
    kind("boning", &["channel", "width", "length", "bone", "clearance"], "a bone in its channel", boning),
    kind(
        "flat-pleats",
        &["style", "visible", "depth", "count"],
        "`knife`, `box` or `inverted` pleats, or `tucks`",
        flat_pleats,
    ),
    kind(
        "smocking",
        &["stage", "rows", "stitch", "row_spacing", "flat", "drawn", "drop"],
        "smocking: `grid`, `drawn-up`, `tied`, `let-out`, `pointed`",
        smocking,
    ),
];

/// Whether the drawing shows numbers that differ from size to size.
pub(super) fn differs_by_size(kind: &str) -> bool {
    !matches!(
        kind,
        "swatch"
            | "marking-grid"
            | "hem"
            | "seam"
            | "pressing"
            | "piping-section"
            | "piping-in-seam"
            | "skirt-view"
            | "bodice-view"
            | "gown-view"
            | "piping-point"
            | "tied-threads"
            | "fold-over"
    )
}

/// What cannot be drawn, as a fault at the request.
pub(super) fn drawn(p: &Params<'_>, result: Result<draw::Figure, Undrawable>) -> Drawn {
    result
        .map_err(|why| p.fault(format!("this figure cannot be drawn: {why}")).help("check the numbers it is fed with"))
}

/// One word of a list.
pub(super) fn choose<T: Copy>(p: &Params<'_>, key: &str, words: &[(&str, T)], usual: Option<T>) -> Result<T, Fault> {
    let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
    let list = known.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    match (p.text(key), usual) {
        (None, Some(usual)) => Ok(usual),
        (None, None) => {
            p.need(key, &format!("one of {list}"))?;
            Err(p.fault(format!("`{key}` is missing")))
        }
        (Some(word), _) => words.iter().find(|(name, _)| *name == word).map(|(_, value)| *value).ok_or_else(|| {
            let message = format!("expected one of {list} for `{key}`, but found `{word}`");
            Fault::new(crate::fault::Code::Figure, p.route.key(key), message).help(did_you_mean(word, &known))
        }),
    }
}

fn rows_of(p: &Params<'_>) -> Result<usize, Fault> {
    Ok(usize::try_from(p.count("rows", "how many rows")?).unwrap_or(usize::MAX))
}

fn half(measure: &Measure, show: Show) -> Measure {
    Measure::new(measure.length / 2.0, show)
}

fn grid(p: &Params<'_>, look: &Look) -> Drawn {
    let input = MarkingGrid {
        rows: rows_of(p)?,
        stitch: p.measure("stitch", "the length of a stitch")?,
        row_gap: p.measure("row_spacing", "the distance from row to row")?,
        first: p.measure("first_row", "the distance of the first row from the top edge")?,
        guide_every: usize::try_from(p.count("guide_every", "how many stitches from guide to guide")?)
            .unwrap_or(usize::MAX),
        folded: !p.flag("raw"),
    };
    drawn(p, draw::marking_grid(&input, look))
}

fn pleats(p: &Params<'_>, look: &Look, draw: fn(&CartridgePleats, &Look) -> Result<draw::Figure, Undrawable>) -> Drawn {
    let input = CartridgePleats {
        stitch: p.measure("stitch", "the length of a stitch")?,
        rows: rows_of(p)?,
        row_gap: p.measure("row_spacing", "the distance from row to row")?,
        pitch: p.measure("pitch", "the seam one pleat takes")?,
        pleats: p.count("pleats", "how many pleats")?,
        flat: p.measure("flat", "the flat width that is pleated")?,
        drawn: p.measure("seam", "the same drawn up")?,
    };
    drawn(p, draw(&input, look))
}

fn swatch(p: &Params<'_>, look: &Look) -> Drawn {
    let name = p.text("of").map_or_else(|| p.need("swatch", "the name of a swatch"), Ok)?;
    let Some(swatch) = p.garment.swatch(name) else {
        let known: Vec<&str> = p.garment.swatches.iter().map(|swatch| swatch.name.as_str()).collect();
        return Err(p.fault(format!("no swatch is called `{name}`")).help(did_you_mean(name, &known)));
    };
    let input = SwatchFigure {
        flat: Measure::new(swatch.flat, Show::FINE),
        tight: Measure::new(swatch.tight, Show::FINE),
        eased: swatch.eased.map(|eased| Measure::new(eased, Show::FINE)),
        stitch: Measure::new(swatch.stitch, Show::SMALL),
        layers: p.text("layers").unwrap_or(&swatch.title).to_string(),
    };
    drawn(p, draw::swatch(&input, look))
}

/// The half of a dip from the centre outward: distance along the level waist, and drop.
pub(super) fn dip_line(shape: &str, width: Length, depth: Length) -> Vec<(Length, Length)> {
    let half = width / 2.0;
    (0..=24)
        .map(|step| {
            let share = f64::from(step) / 24.0;
            let drop = match shape {
                "half-cosine" => f64::midpoint(1.0, (std::f64::consts::PI * share).cos()),
                "parabola" => 1.0 - share * share,
                _ => 1.0 - share,
            };
            (half * share, depth * drop)
        })
        .collect()
}

fn dip(p: &Params<'_>, look: &Look) -> Drawn {
    let answer = p.answer("of")?;
    let width = p.measure("width", "the width of the dip")?;
    let depth = p.measure("depth", "the depth of the dip")?;
    let shape =
        answer.inputs.iter().find(|(name, ..)| name == "shape").map_or("straight", |(_, value, ..)| match value {
            crate::reckon::Value::Word(word) => word,
            _ => "straight",
        });
    if shape == "points" {
        return Err(p
            .fault("a dip given by points has no figure of this kind")
            .help("give its shape as `straight`, `half-cosine` or `parabola`"));
    }
    let arc = p.measure("arc", "the length of the dip along the seam")?;
    let flat = p.measure("half_flat", "the flat width from the centre to the end of the dip")?;
    let input = draw::DipFigure {
        seam: dip_line(shape, width.length, depth.length),
        span: half(&width, Show::FINE),
        arc: half(&arc, Show::FINE),
        stretched: flat,
        ratio: crate::units::Ratio::from_base(p.number("ratio", "the ratio of fullness")?),
        allowance: p.measure("allowance", "the allowance above the seam line")?,
        meets: p.text("meets").unwrap_or("waistband").to_string(),
        depth,
    };
    drawn(p, draw::dip(&input, look))
}

fn gathers(p: &Params<'_>, look: &Look) -> Drawn {
    let input = GatherRows {
        rows: rows_of(p)?,
        row_gap: p.measure("row_spacing", "the distance from row to row")?,
        first: p.measure("first_row", "the distance of the first row from the cut edge")?,
        flat: p.measure("flat", "the flat width")?,
        drawn: p.measure("seam", "the same drawn up")?,
    };
    drawn(p, draw::gather_rows(&input, look))
}

fn ruffle(p: &Params<'_>, look: &Look, draw: fn(&Ruffle, &Look) -> Result<draw::Figure, Undrawable>) -> Drawn {
    let input = Ruffle {
        name: p.text("name").unwrap_or("ruffle").to_string(),
        flat: p.measure("flat", "the length of the strip, flat")?,
        edge: p.measure_or("edge", "seam", "the edge it is drawn up to")?,
        depth: p.measure("depth", "its finished depth")?,
        parts: usize::try_from(p.count("parts", "into how many equal parts strip and edge are marked")?)
            .unwrap_or(usize::MAX),
    };
    drawn(p, draw(&input, look))
}

fn piping(p: &Params<'_>, look: &Look, draw: fn(&PipingFigure, &Look) -> Result<draw::Figure, Undrawable>) -> Drawn {
    let input = PipingFigure {
        cord: p.maybe_measure("cord")?,
        reveal: p.maybe_measure("reveal")?,
        allowance: p.measure("allowance", "from the stitching to the cut edges")?,
        strip: p.measure("strip", "the width of the strip")?,
    };
    drawn(p, draw(&input, look))
}

fn bias(p: &Params<'_>, look: &Look) -> Drawn {
    let input = BiasStrips {
        across: p.measure("width", "the rectangle across the cloth")?,
        along: p.measure("height", "the rectangle along the selvage")?,
        strip: p.measure("strip", "the width of a strip")?,
        slant: p.measure("along_selvage", "what a strip takes along the selvage")?,
        count: usize::try_from(p.count("strips", "how many strips")?).unwrap_or(usize::MAX),
        join: p.measure("join", "the seam allowance of a join")?,
    };
    drawn(p, draw::bias_strips(&input, look))
}

fn hem(p: &Params<'_>, look: &Look) -> Drawn {
    let kinds = [("once", HemKind::Once), ("twice", HemKind::Twice), ("rolled", HemKind::Rolled)];
    let depth = p.measure_or("depth", "finished", "the finished depth")?;
    let input = HemFigure {
        kind: choose(p, "style", &kinds, None)?,
        depth,
        turn: p.maybe_measure("turn")?,
        by_hand: p.flag("by_hand"),
    };
    drawn(p, draw::hem(&input, look))
}

const PRESS: [(&str, Press); 2] = [("open", Press::Open), ("one-side", Press::OneSide)];

fn seam(p: &Params<'_>, look: &Look) -> Drawn {
    let kinds = [
        ("plain", SeamKind::Plain),
        ("french-first", SeamKind::FrenchFirst),
        ("french-second", SeamKind::FrenchSecond),
        ("felled", SeamKind::Felled),
        ("bound", SeamKind::Bound),
        ("faced", SeamKind::Faced),
        ("mounted", SeamKind::Mounted),
        ("felled-lining", SeamKind::FelledLining),
    ];
    let input = SeamFigure {
        kind: choose(p, "style", &kinds, Some(SeamKind::Plain))?,
        allowance: p.measure("allowance", "from the seam to the cut edge")?,
        first: p.maybe_measure("first")?,
        press: choose(p, "press", &PRESS, Some(Press::Open))?,
    };
    drawn(p, draw::seam(&input, look))
}

fn pressing(p: &Params<'_>, look: &Look) -> Drawn {
    let input = Pressing {
        what: p.need("what", "what lies under the iron, in words")?.to_string(),
        press: choose(
            p,
            "press",
            &[("open", Some(Press::Open)), ("one-side", Some(Press::OneSide)), ("flat", None)],
            Some(Some(Press::Open)),
        )?,
        toward: p.text("toward").unwrap_or("").to_string(),
        cloth: p.flag("pressing_cloth"),
    };
    drawn(p, draw::pressing(&input, look))
}

fn placket(p: &Params<'_>, look: &Look) -> Drawn {
    let input = Placket {
        opening: p.measure("opening", "the length of the opening")?,
        lap: p.measure("lap", "how far one side laps over the other")?,
        two_layers: !p.flag("one_layer"),
    };
    drawn(p, draw::placket(&input, look))
}

fn hooks(p: &Params<'_>, look: &Look) -> Drawn {
    let answer = p.answer("of")?;
    let Some(Outcome::List(places)) = answer.get("at") else {
        return Err(p
            .fault("`of` names an entry that has no places")
            .help("name an entry of the technique `closures`"));
    };
    let edge = p.measure_or("edge", "opening", "the length of the opening")?;
    let inset = p.measure_or("inset", "from_edge", "how far the hooks stand back from the edge")?;
    let input = Hooks {
        edge,
        places: places.iter().map(|place| Measure::new(Length::mm(place.value), Show::FINE)).collect(),
        catch: choose(
            p,
            "catch",
            &[("bars", Catch::Bars), ("eyes", Catch::Eyes), ("snaps", Catch::Snaps)],
            Some(Catch::Bars),
        )?,
        inset,
    };
    drawn(p, draw::hooks(&input, look))
}

fn vent(p: &Params<'_>, look: &Look) -> Drawn {
    let input = Vent {
        height: p.measure("height", "how high the vent is")?,
        lap: p.measure("lap", "how far one side laps over the other")?,
        hem: p.measure("hem", "the depth of the hem")?,
    };
    drawn(p, draw::vent(&input, look))
}

fn boning(p: &Params<'_>, look: &Look) -> Drawn {
    let input = Boning {
        channel: p.measure_or("channel", "channel_width", "the width of the channel")?,
        width: p.measure("width", "the width of the bone")?,
        length: p.measure("length", "the length of the channel")?,
        bone: p.measure("bone", "the length of the bone")?,
        clearance: p.measure("clearance", "what is left free at each end")?,
    };
    drawn(p, draw::boning(&input, look))
}

fn flat_pleats(p: &Params<'_>, look: &Look) -> Drawn {
    let kinds = [
        ("knife", PleatKind::Knife),
        ("box", PleatKind::Box),
        ("inverted", PleatKind::Inverted),
        ("tucks", PleatKind::Tuck),
    ];
    let input = FlatPleats {
        kind: choose(p, "style", &kinds, None)?,
        visible: p.measure("visible", "what shows of a pleat")?,
        depth: p.measure("depth", "the depth of a fold")?,
        count: usize::try_from(p.count("count", "how many")?).unwrap_or(usize::MAX),
    };
    drawn(p, draw::flat_pleats(&input, look))
}

fn smocking(p: &Params<'_>, look: &Look) -> Drawn {
    let stages = [
        ("grid", SmockStage::Grid),
        ("drawn-up", SmockStage::DrawnUp),
        ("tied", SmockStage::Tied),
        ("let-out", SmockStage::LetOut),
        ("pointed", SmockStage::Pointed),
    ];
    let lengths = match p.text("of").and_then(|of| p.sized.answers.get(of)).and_then(|answer| answer.get("row_lengths"))
    {
        Some(Outcome::List(list)) => {
            list.iter().map(|length| Measure::new(Length::mm(length.value), Show::FINE)).collect()
        }
        _ => vec![p.measure("drawn", "the length of a row drawn up")?],
    };
    let input = Smocking {
        stage: choose(p, "stage", &stages, None)?,
        rows: rows_of(p)?,
        stitch: p.measure("stitch", "the distance between dots")?,
        row_gap: p.measure("row_spacing", "the distance from row to row")?,
        flat: p.measure("flat", "the flat width")?,
        lengths,
        drop: p.maybe_measure("drop")?,
    };
    drawn(p, draw::smocking(&input, look))
}
