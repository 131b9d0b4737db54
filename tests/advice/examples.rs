//! No advice for what comes with the tool: the examples, and sensible programmes.

use std::path::Path;

use setwright::compile::check;
use setwright::diagnostics::render_text;
use setwright::resolve::Project;
use setwright::source::FolderLoader;

#[test]
fn the_examples_have_no_advice_that_they_do_not_explain() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for file in [
        "first-steps/programme.sets",
        "home-kettlebells/programme.sets",
        "rowing-club/winter.sets",
        "rowing-club/winter-so-far.sets",
    ] {
        let path = examples.join(file);
        let loader = FolderLoader::new(path.parent().unwrap());
        let name = path.file_name().unwrap().to_str().unwrap();
        let checked = check(Project::open(&loader, name).unwrap());
        let shown: Vec<String> =
            checked.advice.iter().map(|d| render_text(d, &checked.sources, false)).collect();
        assert!(shown.is_empty(), "{file}\n{}", shown.concat());
    }
}
