//! The symbol of each kind of part, in strokes of its own: a glyph in a square from −1 to 1.

use super::plane::{At, Path, Rect, at};
use crate::part::Kind;

/// One stroke of a glyph; y points down.
#[derive(Clone, Copy, Debug)]
enum Stroke {
    /// Through these points.
    Line(&'static [(f64, f64)]),
    /// Circle: middle and radius.
    Ring(f64, f64, f64),
    /// One wave from left to right: middle and half-length.
    Wave(f64, f64, f64),
}
use Stroke::{Line, Ring, Wave};

const fn strokes(kind: Kind) -> &'static [Stroke] {
    match kind {
        Kind::BatteryPack => &[
            Line(&[(-1.0, 0.0), (-0.5, 0.0)]),
            Line(&[(-0.5, -0.75), (-0.5, 0.75)]),
            Line(&[(-0.17, -0.36), (-0.17, 0.36)]),
            Line(&[(0.17, -0.75), (0.17, 0.75)]),
            Line(&[(0.5, -0.36), (0.5, 0.36)]),
            Line(&[(0.5, 0.0), (1.0, 0.0)]),
            Line(&[(-1.0, -0.6), (-0.7, -0.6)]),
            Line(&[(-0.85, -0.75), (-0.85, -0.45)]),
            Line(&[(0.7, -0.6), (1.0, -0.6)]),
        ],
        Kind::EAxle => &[
            Ring(0.0, 0.0, 0.55),
            Ring(0.0, 0.0, 0.2),
            Line(&[(-1.0, 0.0), (-0.55, 0.0)]),
            Line(&[(0.55, 0.0), (1.0, 0.0)]),
            Line(&[(-1.0, -0.6), (-1.0, 0.6)]),
            Line(&[(1.0, -0.6), (1.0, 0.6)]),
        ],
        Kind::Motor => &[
            Ring(0.0, 0.0, 0.9),
            Line(&[
                (-0.45, 0.45),
                (-0.45, -0.4),
                (0.0, 0.15),
                (0.45, -0.4),
                (0.45, 0.45),
            ]),
        ],
        Kind::Gearbox => &[
            Ring(-0.4, -0.2, 0.55),
            Ring(0.5, 0.35, 0.45),
            Ring(-0.4, -0.2, 0.12),
            Ring(0.5, 0.35, 0.12),
        ],
        Kind::CentralDrive => &[
            Ring(-0.4, 0.0, 0.55),
            Line(&[
                (-0.65, 0.25),
                (-0.65, -0.2),
                (-0.4, 0.1),
                (-0.15, -0.2),
                (-0.15, 0.25),
            ]),
            Line(&[
                (0.15, 0.0),
                (0.3, 0.0),
                (0.3, -0.4),
                (0.8, -0.4),
                (0.8, 0.4),
                (0.3, 0.4),
                (0.3, 0.0),
            ]),
            Line(&[(0.8, 0.0), (1.0, 0.0)]),
        ],
        Kind::Driveshaft => &[
            Line(&[(-1.0, -0.3), (-0.6, 0.3)]),
            Line(&[(-1.0, 0.3), (-0.6, -0.3)]),
            Line(&[(0.6, -0.3), (1.0, 0.3)]),
            Line(&[(0.6, 0.3), (1.0, -0.3)]),
        ],
        Kind::Inverter => &[
            Line(&[(-0.8, 0.8), (0.8, -0.8)]),
            Line(&[(-0.85, -0.6), (-0.2, -0.6)]),
            Line(&[(-0.85, -0.38), (-0.2, -0.38)]),
            Wave(0.5, 0.5, 0.35),
        ],
        Kind::JunctionBox => &[
            Ring(0.0, 0.0, 0.2),
            Line(&[(-0.2, 0.0), (-0.85, 0.0)]),
            Line(&[(0.2, 0.0), (0.85, 0.0)]),
            Line(&[(0.0, -0.2), (0.0, -0.85)]),
            Line(&[(0.0, 0.2), (0.0, 0.85)]),
            Line(&[(-0.85, -0.2), (-0.85, 0.2)]),
            Line(&[(0.85, -0.2), (0.85, 0.2)]),
            Line(&[(-0.2, -0.85), (0.2, -0.85)]),
            Line(&[(-0.2, 0.85), (0.2, 0.85)]),
        ],
        Kind::DcDc => &[
            Line(&[(-0.8, 0.8), (0.8, -0.8)]),
            Line(&[(-0.85, -0.6), (-0.2, -0.6)]),
            Line(&[(-0.85, -0.38), (-0.2, -0.38)]),
            Line(&[(0.2, 0.38), (0.85, 0.38)]),
            Line(&[(0.2, 0.6), (0.85, 0.6)]),
        ],
        Kind::OnBoardCharger => &[
            Line(&[(-0.8, 0.8), (0.8, -0.8)]),
            Wave(-0.5, -0.5, 0.35),
            Line(&[(0.2, 0.38), (0.85, 0.38)]),
            Line(&[(0.2, 0.6), (0.85, 0.6)]),
        ],
        Kind::ChargeInlet => &[
            Line(&[(-0.28, -0.95), (-0.28, -0.35)]),
            Line(&[(0.28, -0.95), (0.28, -0.35)]),
            Line(&[
                (-0.65, -0.35),
                (0.65, -0.35),
                (0.65, 0.1),
                (0.25, 0.5),
                (-0.25, 0.5),
                (-0.65, 0.1),
                (-0.65, -0.35),
            ]),
            Line(&[(0.0, 0.5), (0.0, 1.0)]),
        ],
        Kind::GeneratorSet => &[
            Line(&[(-0.95, -0.7), (-0.95, 0.15), (-0.25, 0.15), (-0.25, -0.7)]),
            Line(&[(-0.95, -0.25), (-0.25, -0.25)]),
            Line(&[(-0.6, -0.25), (-0.6, 0.6), (0.0, 0.6)]),
            Ring(0.45, 0.35, 0.5),
            Wave(0.45, 0.35, 0.28),
        ],
        Kind::FuelCell => &[
            Line(&[(-0.7, -0.8), (-0.7, 0.8)]),
            Line(&[(-0.42, -0.6), (-0.42, 0.6)]),
            Line(&[(-0.14, -0.6), (-0.14, 0.6)]),
            Line(&[(0.14, -0.6), (0.14, 0.6)]),
            Line(&[(0.42, -0.6), (0.42, 0.6)]),
            Line(&[(0.7, -0.8), (0.7, 0.8)]),
            Line(&[(-1.0, 0.0), (-0.7, 0.0)]),
            Line(&[(0.7, 0.0), (1.0, 0.0)]),
        ],
        Kind::GasTank => &[],
        Kind::Exhaust => &[
            Line(&[
                (-1.0, 0.0),
                (-0.6, 0.0),
                (-0.4, -0.5),
                (0.4, -0.5),
                (0.6, 0.0),
                (1.0, 0.0),
            ]),
            Line(&[(-0.6, 0.0), (-0.4, 0.5), (0.4, 0.5), (0.6, 0.0)]),
        ],
        Kind::Radiator => &[
            Ring(0.0, 0.0, 0.85),
            Ring(0.0, 0.0, 0.18),
            Line(&[(0.0, -0.18), (0.35, -0.7)]),
            Line(&[(0.15, 0.1), (0.5, 0.62)]),
            Line(&[(-0.15, 0.1), (-0.78, 0.1)]),
        ],
        Kind::Chiller => &[
            Line(&[(-0.85, 0.0), (0.85, 0.0)]),
            Line(&[(-0.43, -0.74), (0.43, 0.74)]),
            Line(&[(0.43, -0.74), (-0.43, 0.74)]),
            Ring(0.0, 0.0, 0.35),
        ],
        Kind::CoolantPump => &[
            Ring(0.0, 0.0, 0.7),
            Line(&[(-0.35, -0.6), (0.7, 0.0), (-0.35, 0.6)]),
            Line(&[(0.7, 0.0), (1.0, 0.0)]),
            Line(&[(-1.0, 0.0), (-0.7, 0.0)]),
        ],
        Kind::AirCompressor => &[
            Ring(0.0, 0.0, 0.85),
            Line(&[(-0.7, -0.5), (0.75, -0.25)]),
            Line(&[(-0.7, 0.5), (0.75, 0.25)]),
        ],
        Kind::SteeringPump => &[
            Ring(0.0, 0.0, 0.85),
            Ring(0.0, 0.0, 0.25),
            Line(&[(-0.85, 0.0), (-0.25, 0.0)]),
            Line(&[(0.25, 0.0), (0.85, 0.0)]),
            Line(&[(0.0, 0.25), (0.0, 0.85)]),
        ],
        Kind::Climate => &[
            Wave(0.0, -0.5, 0.8),
            Wave(0.0, 0.0, 0.8),
            Wave(0.0, 0.5, 0.8),
        ],
        Kind::AuxiliaryCradle => &[
            Line(&[(-0.9, -0.6), (-0.9, 0.6), (0.9, 0.6), (0.9, -0.6)]),
            Ring(-0.5, 0.1, 0.25),
            Ring(0.1, 0.1, 0.25),
            Ring(0.6, 0.2, 0.15),
        ],
        Kind::BodyDrive => &[
            Line(&[
                (-0.9, -0.4),
                (0.3, -0.4),
                (0.3, 0.4),
                (-0.9, 0.4),
                (-0.9, -0.4),
            ]),
            Line(&[(-0.3, -0.4), (-0.3, 0.4)]),
            Line(&[(-0.3, 0.0), (0.95, 0.0)]),
        ],
        Kind::BrakeResistor => &[Line(&[
            (-1.0, 0.0),
            (-0.7, 0.0),
            (-0.55, -0.45),
            (-0.25, 0.45),
            (0.05, -0.45),
            (0.35, 0.45),
            (0.6, -0.3),
            (0.7, 0.0),
            (1.0, 0.0),
        ])],
        Kind::Cables => &[
            Line(&[(-0.9, -0.3), (0.9, -0.3)]),
            Line(&[(-0.9, 0.0), (0.9, 0.0)]),
            Line(&[(-0.9, 0.3), (0.9, 0.3)]),
            Line(&[(-0.4, -0.5), (-0.4, 0.5)]),
            Line(&[(0.4, -0.5), (0.4, 0.5)]),
        ],
        Kind::Structure => &[
            Line(&[(-0.7, -0.8), (-0.7, 0.7), (0.8, 0.7)]),
            Line(&[(-0.7, -0.4), (0.4, 0.7)]),
        ],
        Kind::Fluid => &[
            Line(&[(-0.42, 0.1), (0.0, -0.85), (0.42, 0.1)]),
            Line(&[
                (-0.42, 0.1),
                (-0.45, 0.5),
                (0.0, 0.8),
                (0.45, 0.5),
                (0.42, 0.1),
            ]),
        ],
        Kind::EquipmentBox => &[
            Line(&[
                (-0.9, -0.6),
                (0.9, -0.6),
                (0.9, 0.6),
                (-0.9, 0.6),
                (-0.9, -0.6),
            ]),
            Line(&[(-0.9, -0.15), (0.9, -0.15)]),
            Line(&[(-0.2, -0.15), (-0.2, 0.15), (0.2, 0.15), (0.2, -0.15)]),
        ],
        Kind::FreeMass => &[
            Line(&[
                (-0.5, -0.25),
                (0.5, -0.25),
                (0.8, 0.75),
                (-0.8, 0.75),
                (-0.5, -0.25),
            ]),
            Ring(0.0, -0.5, 0.25),
        ],
    }
}

/// Draws the symbol of a kind around a middle, `half` being half of its height.
pub fn draw(path: &mut Path, kind: Kind, middle: At, half: f64) {
    let place = |x: f64, y: f64| at(middle.x + x * half, middle.y + y * half);
    for stroke in strokes(kind) {
        match stroke {
            Line(points) => {
                for (i, (x, y)) in points.iter().enumerate() {
                    if i == 0 {
                        path.from(place(*x, *y));
                    } else {
                        path.to(place(*x, *y));
                    }
                }
            }
            Ring(x, y, r) => {
                path.circle(place(*x, *y), r * half);
            }
            Wave(x, y, long) => {
                path.from(place(x - long, *y));
                path.bend(place(x - long / 2.0, y - long), place(*x, *y));
                path.bend(place(x + long / 2.0, y + long), place(x + long, *y));
            }
        }
    }
}

/// Draws a lying or standing cylinder with domed ends, filling the rectangle.
pub fn bottle(path: &mut Path, r: &Rect, along_x: bool) {
    if along_x {
        let k = (r.height() * 0.32).min(r.width() / 2.0);
        let dome = r.height() * 0.56;
        path.from(at(r.left + k, r.top)).to(at(r.right - k, r.top));
        path.arc(dome, true, at(r.right - k, r.bottom))
            .to(at(r.left + k, r.bottom));
        path.arc(dome, true, at(r.left + k, r.top)).close();
    } else {
        let k = (r.width() * 0.32).min(r.height() / 2.0);
        let dome = r.width() * 0.56;
        path.from(at(r.left, r.bottom - k))
            .to(at(r.left, r.top + k));
        path.arc(dome, true, at(r.right, r.top + k))
            .to(at(r.right, r.bottom - k));
        path.arc(dome, true, at(r.left, r.bottom - k)).close();
    }
}
