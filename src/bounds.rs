//! Every bound on what a programme may be, in one table. Each is an error that names itself and
//! its value; none is reached by a programme somebody could train.

/// The most bytes one file may have: 4 MiB.
pub const FILE_BYTES: usize = 4 * 1024 * 1024;
/// The most bytes one line may have.
pub const LINE_BYTES: usize = 20_000;
/// The most files one project may bring together.
pub const FILES: usize = 1_000;
/// The most files and folders that the editor's server looks at to find a workspace's files.
pub const WORKSPACE_ENTRIES: usize = 100_000;
/// The longest message of an editor: the text of the longest file, escaped, and room to spare.
pub const MESSAGE_BYTES: usize = 64 * 1024 * 1024;
/// The most files that may stand between the first file and one it uses.
pub const USE_DEPTH: usize = 100;
/// The most files that a command takes from one folder.
pub const FOLDER_FILES: usize = 10_000;
/// How many folders deep files are looked for.
pub const FOLDER_DEPTH: usize = 32;
/// How many levels of indentation there are at most (the notation needs four).
pub const DEPTH: usize = 8;
/// The most weeks of a programme: two years.
pub const WEEKS: u32 = 104;
/// The most days of a programme's week.
pub const DAYS: usize = 14;
/// The most set groups of one line.
pub const GROUPS: usize = 50;
/// The most sets of one group, and rounds of one circuit.
pub const SETS: u32 = 100;
/// The most repetitions of one set.
pub const REPS: u32 = 1_000;
/// The longest distance of one set, in metres.
pub const METRES: u32 = 50_000;
/// The largest percentage.
pub const PERCENT: i64 = 1_000;
/// The most drops after a set.
pub const DROPS: u32 = 10;
/// The most pieces of one kind a gym may count.
pub const PIECES: u32 = 1_000;
/// The most masses that one line of a gym may list.
pub const STOCK: usize = 1_000;
/// The most that a plate may measure, in millimetres.
pub const PLATE_MM: u32 = 1_000;
/// The most planned sets of one athlete.
pub const ATHLETE_SETS: usize = 100_000;
/// The most planned sets of all athletes together, where their plans are needed side by side.
pub const PLANNED_SETS: usize = 2_000_000;
/// The most planned sets of all athletes together, where each plan is let go of when it is printed
/// or checked.
pub const PASSED_SETS: usize = 20_000_000;
