//! The formatter: a fixed point, the same meaning, every comment.

use proptest::prelude::*;
use setwright::source::FileId;
use setwright::syntax::{format, parse};

use super::generate::{Made, streams};
use super::support::{cases, meaning};

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn a_hasty_text_formats_to_a_fixed_point(stream in streams(), hand in streams()) {
        let (text, comments) = Made::new(&stream).loose(&hand);
        let (document, found) = parse(&text, FileId(0));
        prop_assert_eq!(&found, &[], "{}", text);
        let once = format(&document, &text).unwrap();
        let (again, found) = parse(&once, FileId(0));
        prop_assert_eq!(&found, &[], "{}\nformatted:\n{}", text, once);
        prop_assert_eq!(meaning(&document), meaning(&again), "{}\nformatted:\n{}", text, once);
        let twice = format(&again, &once).unwrap();
        prop_assert_eq!(&once, &twice, "not a fixed point");
        // Every comment, whole and in order.
        let mut rest = once.as_str();
        for comment in &comments {
            let at = rest.find(comment.as_str());
            prop_assert!(at.is_some(), "{} is lost:\n{}\nformatted:\n{}", comment, text, once);
            rest = &rest[at.unwrap() + comment.len()..];
        }
    }

    /// However hastily it is written, it is the same programme.
    #[test]
    fn a_hasty_text_formats_like_a_tidy_one(stream in streams(), hand in streams()) {
        let made = Made::new(&stream);
        let (hasty, _) = made.loose(&hand);
        let tidy = made.text();
        let (a, b) = (parse(&hasty, FileId(0)).0, parse(&tidy, FileId(0)).0);
        let (a, b) = (meaning(&a), meaning(&b));
        let other = a.lines().zip(b.lines()).find(|(a, b)| a != b);
        prop_assert_eq!(other, None, "{}\ntidy:\n{}", hasty, tidy);
        prop_assert_eq!(a.len(), b.len());
    }
}
