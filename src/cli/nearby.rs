//! Suggests programmes to a user who names a folder, or a file without a programme.

use std::path::{Path, PathBuf};

use crate::diagnostics::or_list;
use crate::resolve::{Project, roots};
use crate::source::FolderLoader;
use crate::syntax::ast::{Head, Item};

use super::Failure;
use super::input::files_below;

/// The files in and below a folder that have a programme, or bring one in, by their paths from
/// where the folder is named.
fn programmes(folder: &Path) -> Vec<String> {
    // What cannot be listed is only not proposed.
    let below = files_below(folder).unwrap_or_default();
    let loader = FolderLoader::new(folder);
    let has_one = |file: &String| {
        Project::open(&loader, file).is_ok_and(|project| {
            let mut nodes = project.documents.iter().flat_map(|document| &document.nodes);
            nodes.any(|node| matches!(node.item.value, Item::Head(Head::Programme(_))))
        })
    };
    let found = roots(&loader, &below).into_iter().filter(has_one);
    let plain = folder == Path::new(".") || folder == Path::new("");
    found.map(|file| if plain { file } else { folder.join(file).display().to_string() }).collect()
}

/// That a folder is no file to work on, with what could be meant.
pub fn is_folder(folder: &Path) -> Failure {
    let found = programmes(folder);
    let names: Vec<&str> = found.iter().map(String::as_str).collect();
    let help = match names.as_slice() {
        [] => "name a programme (.sets)".to_owned(),
        [only] => format!("name its programme, `{only}`"),
        several => format!("name a programme: {}", or_list(several)),
    };
    Failure::Usage(format!("{} is a folder: {help}", folder.display()))
}

/// The one programme of a folder.
pub fn only_programme(folder: &Path) -> Result<PathBuf, Failure> {
    match programmes(folder).as_slice() {
        [only] => Ok(PathBuf::from(only)),
        _ => Err(is_folder(folder)),
    }
}

/// That nothing was made, for want of a programme, and where there is one.
pub fn no_programme(file: &Path, folder: &Path) -> String {
    let found = programmes(folder);
    let names: Vec<&str> = found.iter().map(String::as_str).collect();
    let there = match names.as_slice() {
        [] => "write `programme NAME` in it, or name the file that contains one".to_owned(),
        names => format!("name the file that contains one: {}", or_list(names)),
    };
    format!("setwright: nothing was made, because {} has no programme; {there}", file.display())
}
