//! A set as it is written to JSON: flat, with the unit in the name of each field.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use super::{Derivation, Implement, PlannedSet, SetKind, Step};
use crate::quantity::{
    Decimal, Duration, Effort, Exact, HalfPoints, Mass, RepCount, SideRest, Tempo, Work,
};

/// Number of decimals of a share of the 1RM.
const SHARE_PLACES: u32 = 4;

/// One set: what to do, with what, and where the numbers come from.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "PlannedSet")]
#[allow(clippy::struct_excessive_bools, reason = "one field for each of the JSON's")]
pub struct SetRecord<'a> {
    /// What the set is for.
    pub kind: SetKind,
    /// The fewest repetitions that make the set; for a cluster, of all mini-sets together. Null for
    /// time, distance and AMRAP.
    pub reps_min: Option<u32>,
    /// The most repetitions. Null for a set without an upper bound, and if `reps_min` is null.
    pub reps_max: Option<u32>,
    /// Whether the set has no upper bound, such as `5+`.
    pub open_ended: bool,
    /// Whether the set is AMRAP: as many repetitions as possible.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub amrap: bool,
    /// Repetitions of each mini-set of a cluster.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cluster_reps: Option<&'a [u32]>,
    /// Seconds between the mini-sets of a cluster.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cluster_pause_s: Option<ClusterPause>,
    /// The shortest time of work, in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub work_min_s: Option<u32>,
    /// The longest time of work, in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub work_max_s: Option<UpperBound>,
    /// The shortest distance, in metres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub distance_min_m: Option<u32>,
    /// The longest distance, in metres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub distance_max_m: Option<UpperBound>,
    /// Rest between the sides, in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rest_between_sides_s: Option<Duration>,
    /// The requested load before the gym's rounding, in kilograms: the whole bar, one dumbbell, or
    /// the load added to the body mass (negative: assistance). Null if the load is chosen on the
    /// day.
    pub target_kg: Option<&'a Exact>,
    /// The target as a share of the exercise's own 1RM: 0.75 is 75 %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub share_of_1rm: Option<Decimal>,
    /// The load that the gym can make, in kilograms, counted in the same way as the target.
    pub load_kg: Option<Mass>,
    /// Whether the line's load was written for the exercise that this one replaces, so that a load
    /// has to be chosen.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub to_choose: bool,
    /// Whether the load is estimated from an effort. It is a starting point.
    pub about: bool,
    /// The plates of one side, in kilograms, heaviest (innermost) first.
    pub plates_per_side_kg: &'a [Mass],
    /// Whether the load is added to the body mass.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub bodyweight: bool,
    /// What the load is made of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub implement: Option<ImplementKey>,
    /// The empty bar, in kilograms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bar_kg: Option<Mass>,
    /// Both collars together, in kilograms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub collars_kg: Option<Mass>,
    /// Name of the bar.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bar: Option<&'a str>,
    /// Name of the stack.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stack: Option<&'a str>,
    /// Name of the band.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub band: Option<&'a str>,
    /// The plates or other pieces that make up the load added to the body, in kilograms, heaviest
    /// first.
    #[serde(skip_serializing_if = "<[Mass]>::is_empty")]
    pub added_pieces_kg: &'a [Mass],
    /// The rating of perceived exertion (RPE) that is the target or the limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rpe: Option<HalfPoints>,
    /// The repetitions in reserve (RIR) that are the target or the limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rir: Option<HalfPoints>,
    /// Rest after the set, in seconds.
    pub rest_s: Option<Duration>,
    /// The tempo.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tempo: Option<Tempo>,
    /// The range of motion.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<&'a str>,
    /// Length of the interval in seconds, if a set is done on each interval.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub every_s: Option<Duration>,
    /// Length of each short pause within the set (rest-pause), in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rest_pause_s: Option<Duration>,
    /// How the load came about, step by step.
    #[schemars(with = "Vec<Step>")]
    pub derivation: &'a Derivation,
}

/// The upper bound of a range; null if there is none.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct UpperBound(pub Option<u32>);

/// Seconds between the mini-sets; null if no pause is given.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ClusterPause(pub Option<Duration>);

/// The stable short name of what a load is made of.
#[derive(Clone, Copy, Debug)]
pub struct ImplementKey(pub &'static str);

impl Serialize for ImplementKey {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0)
    }
}

impl JsonSchema for ImplementKey {
    fn schema_name() -> Cow<'static, str> {
        "Implement".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schemars::json_schema!({
            "description": "What a load is made of.",
            "type": "string",
            "enum": Implement::KEYS
        })
    }
}

impl<'a> From<&'a PlannedSet> for SetRecord<'a> {
    fn from(set: &'a PlannedSet) -> Self {
        let work = &set.reps.work;
        let reps = match work {
            Work::Reps(count) => Some(*count),
            Work::Cluster { parts, .. } => Some(RepCount::exactly(parts.iter().sum())),
            Work::Amrap | Work::Seconds(_) | Work::Metres(_) => None,
        };
        let (seconds, metres) = match work {
            Work::Seconds(count) => (Some(count), None),
            Work::Metres(count) => (None, Some(count)),
            _ => (None, None),
        };
        let how = set.load.as_ref().map(|built| &built.how);
        let (bar_kg, collars_kg, bar) = match how {
            Some(Implement::Bar { bar, collars, name, .. }) => {
                (Some(*bar), Some(*collars), name.as_deref())
            }
            _ => (None, None, None),
        };
        Self {
            kind: set.kind,
            reps_min: reps.map(|count| count.min),
            reps_max: reps.and_then(|count| count.max),
            open_ended: matches!(
                work,
                Work::Amrap
                    | Work::Reps(RepCount { max: None, .. })
                    | Work::Seconds(RepCount { max: None, .. })
                    | Work::Metres(RepCount { max: None, .. })
            ),
            amrap: *work == Work::Amrap,
            cluster_reps: match work {
                Work::Cluster { parts, .. } => Some(parts),
                _ => None,
            },
            cluster_pause_s: match work {
                Work::Cluster { pause, .. } => Some(ClusterPause(*pause)),
                _ => None,
            },
            work_min_s: seconds.map(|count| count.min),
            work_max_s: seconds.map(|count| UpperBound(count.max)),
            distance_min_m: metres.map(|count| count.min),
            distance_max_m: metres.map(|count| UpperBound(count.max)),
            rest_between_sides_s: set.reps.between.map(|SideRest(rest)| rest),
            target_kg: set.target.as_ref(),
            share_of_1rm: set.share_of_1rm.as_ref().map(|share| share.to_decimal(SHARE_PLACES)),
            load_kg: set.load.as_ref().map(|built| built.mass),
            to_choose: set.to_choose,
            about: set.about,
            plates_per_side_kg: set.plates_per_side(),
            bodyweight: set.bodyweight,
            implement: how.map(|how| ImplementKey(how.key())),
            bar_kg,
            collars_kg,
            bar,
            stack: match how {
                Some(Implement::Stack { name }) => Some(name),
                _ => None,
            },
            band: match how {
                Some(Implement::Band { name }) => Some(name),
                _ => None,
            },
            added_pieces_kg: match how {
                Some(Implement::BodyMass { pieces }) => pieces,
                _ => &[],
            },
            rpe: match set.effort {
                Some(Effort::Rpe(points)) => Some(points),
                _ => None,
            },
            rir: match set.effort {
                Some(Effort::Rir(reps)) => Some(reps),
                _ => None,
            },
            rest_s: set.rest,
            tempo: set.tempo,
            range: set.range.as_deref(),
            every_s: set.every,
            rest_pause_s: set.rest_pause,
            derivation: &set.derivation,
        }
    }
}

impl SetRecord<'_> {
    /// The share of the 1RM in percent, if it is known.
    #[must_use]
    pub fn percent_1rm(&self) -> Option<Decimal> {
        let share = Exact::from(self.share_of_1rm?);
        Some((&share * &Exact::whole(100)).to_decimal(SHARE_PLACES - 2))
    }
}

impl Serialize for PlannedSet {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        SetRecord::from(self).serialize(serializer)
    }
}

impl JsonSchema for PlannedSet {
    fn schema_name() -> Cow<'static, str> {
        SetRecord::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        SetRecord::json_schema(generator)
    }
}
