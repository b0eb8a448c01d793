//! The checks, one file each.

mod ahead_of_axle;
mod angle;
mod approach;
mod axle_rating;
mod behind_cab;
mod breakover;
mod bump;
mod cab_opening;
mod cg_offset;
mod departure;
mod double_axle;
mod e_axle_centre;
mod e_axle_rating;
mod ends;
mod fifth_wheel_load;
mod fifth_wheel_position;
mod frame_gap;
mod frame_splice;
mod frame_strength;
mod gap;
mod gcwr;
mod ground;
mod group_load;
mod gvwr;
mod landing_legs;
mod lift_off;
mod mount_load;
mod moved_chassis;
mod on_part;
mod part_gap;
mod payload;
mod plan_problems;
mod ramp;
mod road_allowance;
mod road_axle;
mod road_bridge;
mod road_driven_share;
mod road_gross;
mod road_height;
mod road_length;
mod road_share;
mod road_steered_share;
mod road_tyre_width;
mod road_width;
mod rollover;
mod shaft_angle;
mod shaft_ends;
mod shaft_length;
mod shaft_line;
mod shaft_plunge;
mod shaft_ripple;
mod shaft_speed;
mod shaft_torque;
mod shaft_travel;
mod side_balance;
mod size;
mod steer_share;
mod suspension_rating;
mod suspension_travel;
mod swept_circle;
mod tail_swing;
mod tilt;
mod trailer_axle_position;
mod trailer_axles;
mod trailer_swing;
mod turning_circle;
mod tyre_gap;
mod tyre_rating;
mod tyre_sweep;
mod whole_load;
mod width;
mod zone_choice;
mod zone_fit;
mod zone_mass;

pub(super) use mount_load::CHECK as MOUNT_LOAD;
pub use payload::possible as payload_possible;
pub(super) use shaft_angle::CHECK as SHAFT_ANGLE;
pub(super) use shaft_ends::CHECK as SHAFT_ENDS;
pub(super) use shaft_length::CHECK as SHAFT_LENGTH;
pub(super) use shaft_plunge::CHECK as SHAFT_PLUNGE;
pub(super) use shaft_ripple::CHECK as SHAFT_RIPPLE;
pub(super) use shaft_speed::CHECK as SHAFT_SPEED;
pub(super) use shaft_torque::CHECK as SHAFT_TORQUE;
pub(super) use shaft_travel::CHECK as SHAFT_TRAVEL;

use super::Check;

/// Every check, in the order in which equal findings are shown.
pub static CHECKS: &[&Check] = &[
    &plan_problems::CHECK,
    &lift_off::CHECK,
    &axle_rating::CHECK,
    &tyre_rating::CHECK,
    &suspension_rating::CHECK,
    &e_axle_rating::CHECK,
    &road_axle::CHECK,
    &road_bridge::CHECK,
    &trailer_axles::CHECK,
    &gvwr::CHECK,
    &gcwr::CHECK,
    &road_gross::CHECK,
    &road_allowance::CHECK,
    &road_tyre_width::CHECK,
    &road_driven_share::CHECK,
    &road_steered_share::CHECK,
    &road_length::CHECK,
    &road_width::CHECK,
    &road_height::CHECK,
    &fifth_wheel_load::CHECK,
    &fifth_wheel_position::CHECK,
    &trailer_axle_position::CHECK,
    &payload::CHECK,
    &steer_share::CHECK,
    &side_balance::CHECK,
    &cg_offset::CHECK,
    &rollover::CHECK,
    &tilt::CHECK,
    &frame_strength::CHECK,
    &frame_splice::CHECK,
    &mount_load::CHECK,
    &double_axle::CHECK,
    &e_axle_centre::CHECK,
    &part_gap::CHECK,
    &frame_gap::CHECK,
    &tyre_gap::CHECK,
    &tyre_sweep::CHECK,
    &suspension_travel::CHECK,
    &moved_chassis::CHECK,
    &cab_opening::CHECK,
    &behind_cab::CHECK,
    &trailer_swing::CHECK,
    &landing_legs::CHECK,
    &ramp::CHECK,
    &ground::CHECK,
    &bump::CHECK,
    &approach::CHECK,
    &breakover::CHECK,
    &departure::CHECK,
    &turning_circle::CHECK,
    &swept_circle::CHECK,
    &tail_swing::CHECK,
    &width::CHECK,
    &ends::CHECK,
    &ahead_of_axle::CHECK,
    &shaft_speed::CHECK,
    &shaft_angle::CHECK,
    &shaft_travel::CHECK,
    &shaft_ends::CHECK,
    &shaft_ripple::CHECK,
    &shaft_plunge::CHECK,
    &shaft_torque::CHECK,
    &shaft_length::CHECK,
    &zone_fit::CHECK,
    &zone_choice::CHECK,
    &zone_mass::CHECK,
];
