//! The formatter: its output is stable, and it keeps the meaning and every comment.

use proptest::prelude::*;
use setwright::source::FileId;
use setwright::syntax::{format, parse};

use super::generate::Made;
use super::laws::meaning;
use super::support::{cases, plan_without_lines, streams};

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
        // Every comment, whole; they move only with the keys they stand above or beside.
        let mut kept: Vec<&str> = once
            .lines()
            .filter_map(|line| {
                let at = if line.trim_start().starts_with('#') { line.find('#') } else { line.find(" #").map(|at| at + 1) };
                at.map(|at| &line[at..])
            })
            .collect();
        let mut comments: Vec<&str> = comments.iter().map(|comment| comment.trim_end()).collect();
        kept.sort_unstable();
        comments.sort_unstable();
        prop_assert_eq!(kept, comments, "{}\nformatted:\n{}", text, once);
    }

    /// Whatever moves, the plan is the same, but for the lines it comes from.
    #[test]
    fn the_formatted_text_makes_the_same_plan(stream in streams(), hand in streams()) {
        let (text, _) = Made::new(&stream).loose(&hand);
        let once = format(&parse(&text, FileId(0)).0, &text).unwrap();
        prop_assert_eq!(plan_without_lines(&text), plan_without_lines(&once), "{}\nformatted:\n{}", text, once);
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
