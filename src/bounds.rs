//! All limits on the size of a programme. Exceeding one is an error that names the limit and its
//! value. No programme that a person could train comes near them.

/// Maximum size of a file in bytes: 4 MiB.
pub const FILE_BYTES: usize = 4 * 1024 * 1024;
/// Maximum length of a line in bytes.
pub const LINE_BYTES: usize = 20_000;
/// Maximum number of files in a project.
pub const FILES: usize = 1_000;
/// Maximum number of files and folders that the language server looks at to find a workspace's
/// files.
pub const WORKSPACE_ENTRIES: usize = 100_000;
/// Maximum size of a message from an editor in bytes: the longest file, escaped, with room to
/// spare.
pub const MESSAGE_BYTES: usize = 64 * 1024 * 1024;
/// Maximum number of files from the first file to a file that it uses, directly or through others.
pub const USE_DEPTH: usize = 100;
/// Maximum number of files that a command takes from one folder.
pub const FOLDER_FILES: usize = 10_000;
/// Maximum depth of folders in which files are searched.
pub const FOLDER_DEPTH: usize = 32;
/// Maximum number of levels of indentation (the notation needs four).
pub const DEPTH: usize = 8;
/// Maximum number of weeks of a programme: two years.
pub const WEEKS: u32 = 104;
/// Maximum number of days in a programme's week.
pub const DAYS: usize = 14;
/// Maximum number of set groups on a line.
pub const GROUPS: usize = 50;
/// Maximum number of sets in a group, and of rounds in a circuit.
pub const SETS: u32 = 100;
/// Maximum number of repetitions in a set.
pub const REPS: u32 = 1_000;
/// Maximum distance of a set, in metres.
pub const METRES: u32 = 50_000;
/// Largest percentage.
pub const PERCENT: i64 = 1_000;
/// Maximum number of drops after a set.
pub const DROPS: u32 = 10;
/// Maximum number of pieces of one kind in a gym.
pub const PIECES: u32 = 1_000;
/// Maximum number of masses on one line of a gym.
pub const STOCK: usize = 1_000;
/// Maximum diameter or thickness of a plate, in millimetres.
pub const PLATE_MM: u32 = 1_000;
/// Maximum number of planned sets of one athlete.
pub const ATHLETE_SETS: usize = 100_000;
/// Maximum number of planned sets of all athletes together, if their plans are needed at the same
/// time.
pub const PLANNED_SETS: usize = 2_000_000;
/// Maximum number of planned sets of all athletes together, if each plan is dropped after it is
/// printed or checked.
pub const PASSED_SETS: usize = 20_000_000;
