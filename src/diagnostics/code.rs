//! All diagnostic codes: a stable name, a severity and a page each.

use schemars::JsonSchema;
use serde::Serialize;

/// How serious a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Nothing can be printed until it is fixed.
    Error,
    /// Cards can be printed; look at it first.
    Warning,
    /// Worth knowing.
    Info,
}

impl Severity {
    /// The word that is printed before the message.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Info => "info",
        }
    }
}

macro_rules! codes {
    (
        text: { $($severity:ident { $($(#[$doc:meta])* $variant:ident = $name:literal,)* })* }
        advice: {
            $($level:ident { $($(#[$advice_doc:meta])* $advice:ident = $advice_name:literal,)* })*
        }
    ) => {
        /// A diagnostic code. Its name is stable and equal to the name of its page in `src/codes/`.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code { $($($(#[$doc])* $variant,)*)* $($($(#[$advice_doc])* $advice,)*)* }

        impl Code {
            /// All codes, in the order of the table.
            pub const ALL: &'static [Code] = &[$($(Code::$variant,)*)* $($(Code::$advice,)*)*];
            /// The codes that are advice on a programme and can be allowed. The others are about its text.
            pub const ADVICE: &'static [Code] = &[$($(Code::$advice,)*)*];

            /// The stable name.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $($(Code::$variant => $name,)*)*
                    $($(Code::$advice => $advice_name,)*)*
                }
            }

            /// How serious it is by default.
            #[must_use]
            pub const fn severity(self) -> Severity {
                match self {
                    $($(Code::$variant => Severity::$severity,)*)*
                    $($(Code::$advice => Severity::$level,)*)*
                }
            }

            /// The page that explains it.
            #[must_use]
            pub const fn page(self) -> &'static str {
                match self {
                    $($(Code::$variant => include_str!(concat!("../codes/", $name, ".md")),)*)*
                    $($(Code::$advice => include_str!(concat!("../codes/", $advice_name, ".md")),)*)*
                }
            }
        }
    };
}

codes! {
    text: {
    Error {
        // Files
        /// A file is not UTF-8 text.
        NotUtf8 = "not-utf8",
        /// A file or a project passes a bound on size.
        TooLarge = "too-large",
        /// A line is longer than the bound.
        LineTooLong = "line-too-long",
        /// A used file is not there.
        FileNotFound = "file-not-found",
        /// A used file cannot be read.
        FileUnreadable = "file-unreadable",
        /// A used file lies outside the project folder.
        OutsideProject = "outside-project",
        /// Files use each other in a ring.
        UseCycle = "use-cycle",
        /// A file in a notation that came after this program.
        NewerNotation = "newer-notation",
        // Lines
        /// A tab in the indentation.
        TabIndent = "tab-indent",
        /// Indentation that matches no open level.
        StrayIndent = "stray-indent",
        /// A line that opens no known block.
        UnknownBlock = "unknown-block",
        /// A block without a name.
        MissingName = "missing-name",
        /// A key that the block does not have.
        UnknownKey = "unknown-key",
        /// A line without a colon.
        MissingColon = "missing-colon",
        /// A key without a value.
        MissingValue = "missing-value",
        /// A line where none can stand.
        MisplacedLine = "misplaced-line",
        /// A key given twice.
        RepeatedKey = "repeated-key",
        /// An order letter missing or in lower case.
        MissingOrderLetter = "missing-order-letter",
        /// A character that cannot be printed.
        ControlCharacter = "control-character",
        /// Quotes around a value.
        QuotedText = "quoted-text",
        // Values
        /// A value that cannot be read.
        BadValue = "bad-value",
        /// A prescription that cannot be read.
        BadPrescription = "bad-prescription",
        /// A rule that cannot be read.
        BadRule = "bad-rule",
        /// A result that cannot be read.
        BadResult = "bad-result",
        /// A decimal comma.
        DecimalComma = "decimal-comma",
        /// A number without its unit.
        MissingUnit = "missing-unit",
        /// A number outside its limits.
        NumberOutOfRange = "number-out-of-range",
        /// A date that is not in the calendar.
        BadDate = "bad-date",
        /// Brackets after a day's name that were meant to hold a weekday.
        BadWeekday = "bad-weekday",
        // Definitions
        /// Two definitions of one name.
        DuplicateDefinition = "duplicate-definition",
        /// Two lines of a day with the same order letter.
        DuplicateOrder = "duplicate-order",
        /// A phase or a day that belongs to no programme.
        OutsideProgramme = "outside-programme",
        /// Exercises that are like each other in a ring.
        LikeCycle = "like-cycle",
        /// A required key is missing.
        MissingKey = "missing-key",
        /// An exercise name nobody defined.
        UnknownExercise = "unknown-exercise",
        /// An athlete nobody defined.
        UnknownAthlete = "unknown-athlete",
        /// A gym nobody defined.
        UnknownGym = "unknown-gym",
        /// A scheme nobody defined.
        UnknownScheme = "unknown-scheme",
        /// A programme nobody defined.
        UnknownProgramme = "unknown-programme",
        /// A day or an order letter that the programme does not have.
        UnknownDay = "unknown-day",
        /// A log names another exercise than the plan has at that letter.
        LogMismatch = "log-mismatch",
        /// One session logged twice.
        LoggedTwice = "logged-twice",
        /// A parameter that the scheme does not have.
        UnknownParameter = "unknown-parameter",
        /// A word outside a fixed list: a muscle, a pattern, an equation.
        UnknownWord = "unknown-word",
        // Weeks
        /// Two week lines or phases that share a week.
        OverlappingWeeks = "overlapping-weeks",
        /// A week after the programme's last.
        WeekPastEnd = "week-past-end",
        /// A series of another length than the weeks it is for.
        SeriesLength = "series-length",
        /// A step in a unit that does not fit its number.
        StepUnit = "step-unit",
        // Prescriptions in their line
        /// A line that says nothing to do.
        MissingPrescription = "missing-prescription",
        /// A share of a top set without a group before it.
        NoTopSet = "no-top-set",
        /// `8+8` of an exercise that is done on each side.
        UnclearSides = "unclear-sides",
        /// Sets stated for a member of a circuit, an interval or a timed group.
        SetsInGroup = "sets-in-group",
        /// A group line without lines of its letter.
        EmptyGroup = "empty-group",
        /// A rule changes the load of a line that is set by effort.
        LoadOnEffort = "load-on-effort",
        // Athletes
        /// A percentage without a max to take it of.
        MissingMax = "missing-max",
        /// Maxes derived from each other in a ring.
        MaxCycle = "max-cycle",
        /// Exercises replace each other in a ring.
        ReplaceCycle = "replace-cycle",
        /// An athlete without a gym.
        MissingGym = "missing-gym",
        /// An athlete without a body mass that a load needs.
        MissingBodyMass = "missing-body-mass",
        /// A max of a body-mass lift that does not say what was added to the body mass.
        PlainBodyMax = "plain-body-max",
        /// A body-mass load on an exercise that is loaded otherwise.
        BodyweightMismatch = "bodyweight-mismatch",
        /// A load over the lift's own max.
        OverMax = "over-max",
        /// A step, a rule or a phase takes the whole load away.
        LoadRunsOut = "load-runs-out",
        /// An exercise that the athlete's gym has nothing for.
        MissingEquipment = "missing-equipment",
        /// An exercise that the athlete must avoid.
        AvoidedExercise = "avoided-exercise",
        /// A gym with more possible loads than the bound.
        TooManyLoads = "too-many-loads",
        /// A plan with more sets than the bound.
        PlanTooLarge = "plan-too-large",
        /// A setting of advice that fits nothing in the plan.
        BadAdvice = "bad-advice",
    }
    Warning {
        /// A file with nothing in it.
        EmptyFile = "empty-file",
        /// No programme to make cards of.
        NoProgramme = "no-programme",
        /// No athlete to make cards for.
        NoAthlete = "no-athlete",
        /// A number on an order letter whose group has one member.
        LoneMember = "lone-member",
        /// Members of a superset state different rests, and one is printed.
        GroupRest = "group-rest",
        /// A session dated before one that the plan has earlier.
        LogDateOrder = "log-date-order",
        /// A load, a number or a date in a log that looks like a typo.
        LogUnlikely = "log-unlikely",
        /// More sets logged than planned.
        LogExtraSets = "log-extra-sets",
        /// A rule that never acts, because of an earlier one or because its condition is never true.
        RuleNeverActs = "rule-never-acts",
        /// A rule whose action changes nothing.
        RuleWithoutEffect = "rule-without-effect",
        /// A rule that points the wrong way, or by far too much.
        RuleDirection = "rule-direction",
        /// A set group without a load, where one seems to be meant.
        LoadLeftOpen = "load-left-open",
        /// An unlikely value: a rest of 90 minutes, a plate of 125 kg.
        UnlikelyValue = "unlikely-value",
        /// An unlikely max, or an unlikely date of a max.
        UnlikelyMax = "unlikely-max",
        /// A max estimated from more repetitions than the equations hold for.
        EstimateRange = "estimate-range",
        /// A phase that takes off hardly anything.
        ShortDeload = "short-deload",
        /// The best or the worst path leaves what the gym can load.
        PathLeavesEquipment = "path-leaves-equipment",
        /// The best path leads past the tested maximum.
        PathPastMax = "path-past-max",
        /// A character that the font cannot print.
        MissingGlyph = "missing-glyph",
    }
    Info {
        /// A limit that has ended before the programme does.
        LimitPassed = "limit-passed",
        /// A logged load lighter than planned: the set counts as missed.
        LogLightSet = "log-light-set",
        /// A limit that is printed and does nothing else.
        LimitOnlyPrinted = "limit-only-printed",
        /// Things that a programme needs and that a gym's list does not name.
        AssumedEquipment = "assumed-equipment",
        /// An exercise is to be avoided, and its near relatives are not.
        AvoidedAlone = "avoided-alone",
        /// A session written down to be filled in, and not filled in.
        LogUnfilled = "log-unfilled",
    }
    }
    advice: {
    Warning {
        // Limits
        /// Repetitions beyond what the percentage allows.
        RepsPastPercent = "reps-past-percent",
        /// A heavy set that needs a spotter or safeties.
        NeedsSpotter = "needs-spotter",
        /// A muscle to be avoided helps.
        AvoidedMuscle = "avoided-muscle",
        // Session
        /// A heavy compound after isolation for the same muscles, or late in the session.
        LateCompound = "late-compound",
        /// Two spinally loaded exercises tied together.
        SpineSuperset = "spine-superset",
        // Load
        /// A target that the gym's loads do not come near.
        LoadOffTarget = "load-off-target",
        // Block
        /// More load and more sets at once.
        DoubleJump = "double-jump",
        /// A lift asks for much more than before.
        LoadJump = "load-jump",
    }
    Info {
        // Session
        /// Heavy work without a warm-up.
        NoWarmUp = "no-warm-up",
        /// Two grip-limited exercises tied together.
        GripSuperset = "grip-superset",
        /// Partners share a bar with different plates.
        PlateChanges = "plate-changes",
        /// A session longer than its time.
        OverTime = "over-time",
        // Load
        /// Heavy sets with little rest.
        ShortRest = "short-rest",
        /// Many repetitions in a heavy zone.
        ZoneVolume = "zone-volume",
        // Week
        /// Two days on one weekday.
        SameWeekday = "same-weekday",
        /// No unilateral exercise for the legs.
        UnilateralLegs = "unilateral-legs",
        /// Pushing against pulling.
        PushPullBalance = "push-pull-balance",
        /// Knee against hip.
        KneeHipBalance = "knee-hip-balance",
        /// Few hard sets a muscle.
        FewWeeklySets = "few-weekly-sets",
        /// Many hard sets a muscle.
        ManyWeeklySets = "many-weekly-sets",
        /// One exercise in place of several.
        LostVariety = "lost-variety",
        // Block
        /// Many more sets than before.
        VolumeJump = "volume-jump",
        /// No deload.
        NoDeload = "no-deload",
        /// A test that is not led up to.
        UntriedIntensity = "untried-intensity",
        // Settings
        /// An `advice: allow` that nothing needs.
        UnusedAllow = "unused-allow",
    }
    }
}

impl Code {
    /// Whether it is advice on a programme.
    #[must_use]
    pub fn is_advice(self) -> bool {
        Self::ADVICE.contains(&self)
    }

    /// The kind with this name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.name() == name)
    }
}
