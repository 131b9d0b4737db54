//! Conversion between the protocol's URIs and paths on disk.

use std::path::{Path, PathBuf};

/// The path of a `file:` URI; `None` for other schemes and for bytes that are not UTF-8.
#[must_use]
pub fn path_of(uri: &str) -> Option<PathBuf> {
    let (scheme, rest) = uri.split_once(':')?;
    if !scheme.eq_ignore_ascii_case("file") {
        return None;
    }
    let rest = rest.split(['?', '#']).next().unwrap_or(rest);
    let path = match rest.strip_prefix("//") {
        Some(rest) => {
            let (host, path) = rest.split_at(rest.find('/')?);
            if host.is_empty() || host.eq_ignore_ascii_case("localhost") {
                decoded(path)?
            } else {
                format!("//{}{}", decoded(host)?, decoded(path)?)
            }
        }
        None => decoded(rest)?,
    };
    // `/c:/plans`: the slash before a drive letter belongs to the URI, not to the path.
    let drive = path.as_bytes().get(2) == Some(&b':')
        && path.as_bytes().get(1).is_some_and(u8::is_ascii_alphabetic);
    let path = if cfg!(windows) && drive { path.get(1..).unwrap_or(&path) } else { &path };
    Some(PathBuf::from(path))
}

/// The `file:` URI of an absolute path.
#[must_use]
pub fn of_path(path: &Path) -> String {
    let path = path.to_string_lossy();
    let path = if cfg!(windows) { path.replace('\\', "/") } else { path.into_owned() };
    let root = if path.starts_with('/') { "file://" } else { "file:///" };
    let mut uri = String::from(root);
    for byte in path.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'/' | b'-' | b'.' | b'_' | b'~' => {
                uri.push(char::from(byte));
            }
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

/// Decodes the `%xx` of a text.
fn decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        let mut digits = rest.clone();
        let digit = |byte: Option<u8>| char::from(byte?).to_digit(16);
        match (byte, digit(digits.next()), digit(digits.next())) {
            (b'%', Some(high), Some(low)) => {
                bytes.push(u8::try_from(high * 16 + low).ok()?);
                rest = digits;
            }
            _ => bytes.push(byte),
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_paths_go_there_and_back() {
        for (uri, path) in [
            ("file:///plans/winter.sets", "/plans/winter.sets"),
            ("file:///my%20plans/%C5%BDofie%23.sets", "/my plans/Žofie#.sets"),
        ] {
            assert_eq!(path_of(uri).as_deref(), Some(Path::new(path)));
            assert_eq!(of_path(Path::new(path)), uri);
        }
    }

    #[test]
    fn names_of_every_kind_are_read_or_refused() {
        assert_eq!(path_of("FILE://localhost/a").as_deref(), Some(Path::new("/a")));
        assert_eq!(path_of("file:/a%2").as_deref(), Some(Path::new("/a%2")));
        assert_eq!(path_of("file:///a?x#y").as_deref(), Some(Path::new("/a")));
        assert_eq!(path_of("file://host/a").as_deref(), Some(Path::new("//host/a")));
        let drive = path_of("file:///c%3A/plans/a.sets").unwrap();
        let wanted = if cfg!(windows) { "c:/plans/a.sets" } else { "/c:/plans/a.sets" };
        assert_eq!(drive, Path::new(wanted));
        for other in ["untitled:Untitled-1", "", ":", "file", "file://", "file:///%FF", "%"] {
            assert_eq!(path_of(other), None, "{other}");
        }
    }
}
