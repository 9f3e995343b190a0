//! Golden text of every paper of every demo case. `make bless` writes them anew; read the diff.

use evengap_papers::{Kind, Language, Occasion, render};
use evengap_tests::{demos, occasion, project, with_addendum};
use expect_test::expect_file;

#[test]
fn papers_read_as_agreed() {
    for (name, case) in demos() {
        for kind in Kind::ALL {
            for language in kind.languages() {
                let ending = if *language == Language::En { String::new() } else { format!(".{}", language.code()) };
                let file = format!("{name}.{}{ending}.txt", kind.name());
                let golden = project().join("tests/golden").join(file);
                let (case, occasion) = match kind {
                    Kind::Addendum => with_addendum(&name, &case),
                    _ => (case.clone(), Occasion { language: *language, ..occasion() }),
                };
                expect_file![golden].assert_eq(&render(&case, kind, &occasion).unwrap().text());
            }
        }
    }
}
