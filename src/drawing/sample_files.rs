//! Frame files for tests of scenes: eight invented framesets of four sizes, printed from exact shapes.

/// What a sample frameset is made from: head angle, seat angle, reach of the first size, fork length along the axis,
/// fork offset, chainstay, bottom bracket drop, all mm and degrees.
struct Shape {
    maker: &'static str,
    model: &'static str,
    head: f64,
    seat: f64,
    reach: f64,
    fork: f64,
    offset: f64,
    chainstay: f64,
    drop: f64,
    tyre: &'static str,
    more: &'static str,
}

const SHAPES: [Shape; 8] = [
    shape(
        "Marrowby",
        "Drift",
        [71.5, 73.0, 375.0, 430.0, 49.0, 445.0, 67.0],
        "47-622",
        "weights: [(part: Frame, size: \"M\", grams: 2640, from: Weighed(to: 5)), (part: Fork, grams: 1310, from: Weighed(to: 5))],",
    ),
    shape(
        "Quern",
        "Halter",
        [69.5, 74.0, 392.0, 483.0, 51.0, 440.0, 72.0],
        "55-622",
        "weights: [(part: Frame, size: \"L\", grams: 2790, from: Claimed), (part: Fork, grams: 1290, from: Claimed)],",
    ),
    shape(
        "Tansett",
        "Fourways",
        [72.0, 73.5, 370.0, 395.0, 45.0, 435.0, 75.0],
        "42-622",
        "tubing: (material: Titanium), weights: [(part: Frameset, grams: 3350, from: Claimed)],",
    ),
    shape(
        "Ellersby",
        "Long Averil",
        [70.5, 73.0, 400.0, 420.0, 55.0, 460.0, 70.0],
        "50-622",
        "weights: [(part: Frame, size: \"M\", grams: 2350, from: Weighed(to: 10))],",
    ),
    shape(
        "Dunmarrow",
        "Sedgemurl",
        [71.0, 73.0, 365.0, 410.0, 50.0, 430.0, 60.0],
        "54-584",
        "tubing: (material: Aluminium), weights: [(part: Fork, grams: 780, from: Claimed)],",
    ),
    shape("Hollin", "Wendlebar", [68.0, 75.0, 415.0, 510.0, 46.0, 435.0, 55.0], "60-622", ""),
    shape(
        "Pell & Wade",
        "Tolladine",
        [71.5, 72.5, 380.0, 400.0, 58.0, 455.0, 65.0],
        "47-622",
        "weights: [(part: Frame, grams: 2900, from: Claimed), (part: Fork, grams: 1100, from: Claimed)],",
    ),
    shape(
        "Marrowby",
        "Drift Special with a name that goes on for sixty letters ok",
        [71.0, 73.5, 385.0, 430.0, 49.0, 450.0, 68.0],
        "47-622",
        "",
    ),
];

const fn shape(
    maker: &'static str,
    model: &'static str,
    [head, seat, reach, fork, offset, chainstay, drop]: [f64; 7],
    tyre: &'static str,
    more: &'static str,
) -> Shape {
    Shape { maker, model, head, seat, reach, fork, offset, chainstay, drop, tyre, more }
}

/// The frame files.
pub(crate) fn frame_files() -> Vec<String> {
    SHAPES.iter().map(file).collect()
}

/// A frame file that says next to nothing.
pub(crate) const BARE: &str =
    "Frameset(format: 1, maker: \"Ellersby\", model: \"Tarrowen\", sizes: [(label: \"M\", figures: {Reach: 400})])";

/// A frame file without seat tube and fork.
pub(crate) const HALF: &str =
    "Frameset(format: 1, maker: \"Tansett\", model: \"Hathrow\", tyre: \"47-622\", sizes: [(label: \"M\",
    figures: {Stack: 605, Reach: 395, HeadAngle: 71.5, HeadTube: 150, Chainstay: 440, BbDrop: 70})])";

fn file(shape: &Shape) -> String {
    let sizes: Vec<String> = ["S", "M", "L", "XL"]
        .iter()
        .enumerate()
        .map(|(i, label)| {
            let i = i as f64;
            let head_tube = 110.0 + 25.0 * i;
            let reach = shape.reach + 12.0 * i;
            let head = if i == 0.0 { shape.head - 0.5 } else { shape.head };
            let (sin, cos) = head.to_radians().sin_cos();
            let along = head_tube + 12.0 + shape.fork;
            let stack = shape.drop + along * sin - shape.offset * cos;
            let level = (shape.chainstay * shape.chainstay - shape.drop * shape.drop).sqrt();
            let wheelbase = level + reach + along * cos + shape.offset * sin;
            format!(
                "(label: \"{label}\", figures: {{Stack: {stack:.0}, Reach: {reach:.0}, HeadAngle: {head:.1}, SeatAngle: {}, \
                 HeadTube: {head_tube:.0}, SeatTube: {:.0}, ForkLengthAlong: {:.0}, ForkOffset: {}, Chainstay: {}, BbDrop: {}, \
                 Wheelbase: {wheelbase:.0}}})",
                shape.seat,
                430.0 + 40.0 * i,
                shape.fork,
                shape.offset,
                shape.chainstay,
                shape.drop
            )
        })
        .collect();
    format!(
        "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"{}\", model: \"{}\", tyre: \"{}\", {} sizes: [{}])",
        shape.maker,
        shape.model,
        shape.tyre,
        shape.more,
        sizes.join(", ")
    )
}
