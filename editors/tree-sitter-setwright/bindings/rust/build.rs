//! Compiles the generated parser and the scanner beside it.

fn main() {
    let mut build = cc::Build::new();
    build.std("c11").include("src").warnings(false);
    for file in ["src/parser.c", "src/scanner.c"] {
        build.file(file);
        println!("cargo:rerun-if-changed={file}");
    }
    build.compile("tree-sitter-setwright");
}
