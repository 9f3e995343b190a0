//! Golden text of every paper of every demo case. `make bless` writes them anew; read the diff.

use evengap_papers::Kind;
use evengap_tests::{demos, paper, project};
use expect_test::expect_file;

#[test]
fn papers_read_as_agreed() {
    for (name, case) in demos() {
        for kind in Kind::ALL {
            let golden = project().join("tests/golden").join(format!("{name}.{}.txt", kind.name()));
            expect_file![golden].assert_eq(&paper(&case, kind).text());
        }
    }
}
