//! Measures a notebook of 100,000 invented cases: saving, finding as one types, opening; held, in the same run, against
//! the same notebook without encryption and, for finding, against a plain FTS5 table. EVENGAP_BENCH_CASES takes fewer.

mod cases;
#[path = "../../src/projections/folding.rs"]
mod folding;
mod raw;
#[path = "../../src/projections/text.rs"]
#[expect(dead_code, reason = "the notebook's own file; only its words are needed")]
mod text;

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use evengap_case::{Case, LocalTime};
use evengap_notebook::{Cost, Notebook, Passphrase};
use serde_json::json;

use cases::Maker;
use raw::Raw;

type Failure = Box<dyn std::error::Error>;

/// Lines that the window asks for.
const MOST: u32 = 200;
/// Finds that take longer are named.
const SLOW: Duration = Duration::from_millis(30);
const AT_ONCE: u64 = 5_000;
const SAVES: u64 = 400;

/// What somebody types, letter by letter: names, numbers, lots, dates, and words that stand in very many entries.
const TYPED: [&str; 12] = [
    "Threlkeld",
    "Sanderford Ivo",
    "brzo",
    "WTH-154321",
    "T228401",
    "S0719",
    "2014-03",
    "march 2014",
    "left total",
    "cemented",
    "knee medial",
    "the patient",
];

fn main() -> Result<(), Failure> {
    let count: u64 = std::env::var("EVENGAP_BENCH_CASES").ok().and_then(|count| count.parse().ok()).unwrap_or(100_000);
    // Making the notebook takes minutes: EVENGAP_BENCH_KEEP names a folder in which it is kept for the next time.
    let kept = std::env::var_os("EVENGAP_BENCH_KEEP").map(|folder| PathBuf::from(folder).join(count.to_string()));
    let passing = tempfile::tempdir()?;
    let folder = kept.as_deref().unwrap_or(passing.path());
    std::fs::create_dir_all(folder)?;
    let whole = folder.join("knees.evengap");
    let words = Passphrase::new("four geese crossed the weir")?;
    let now: LocalTime = "2026-11-20T14:05".parse()?;
    let maker = Maker::new()?;

    let raw_path = folder.join("raw.db");
    if whole.exists() {
        println!("{count} cases, kept from before");
    } else {
        make(&whole, &raw_path, &words, &maker, count, now)?;
    }
    // Saves change it: the next time they have to find it as it was made.
    let path = passing.path().join("saved-in.evengap");
    if kept.is_some() {
        std::fs::copy(&whole, &path).map(drop)?
    } else {
        std::fs::rename(&whole, &path)?
    }
    let raw = Raw::open(&raw_path)?;

    let mut unlock = Times::default();
    for _ in 0..5 {
        unlock.take(|| Notebook::open(&path, &words, now))?;
    }
    let mut ours = Notebook::open(&path, &words, now)?;
    let plain_path = passing.path().join("plain.db");
    let mut plain = ours.unencrypted(&plain_path)?;

    // What the peers left in memory would be written out while our saves wait for the disk.
    for peer in [&plain_path, &raw_path, &path] {
        std::fs::File::open(peer)?.sync_all()?;
    }

    println!("\n{:<34}{:>10}{:>10}{:>10}   target", "", "median", "p99", "worst");
    unlock.print("unlock", Some(1_500.0));
    let find_ours = find(|typed| Ok(ours.find_newest(typed, MOST)?.lines.len()))?;
    let find_plain = find(|typed| Ok(plain.find_newest(typed, MOST)?.lines.len()))?;
    let find_raw = find(|typed| Ok(raw.find(typed, MOST)?))?;
    find_ours.print("find, each letter", Some(30.0));
    find_plain.print("  the same unencrypted", None);
    find_raw.print("  plain FTS5", None);
    let mut list = Times::default();
    for _ in 0..50 {
        list.take(|| ours.find_newest("", MOST))?;
    }
    list.print("list, nothing typed", Some(30.0));
    let number = |case: &mut serde_json::Value, n: u64| case["patient"]["weight_kg"] = json!(51 + n % 70);
    let text =
        |case: &mut serde_json::Value, n: u64| case["choice"]["reason"] = json!(format!("Bone on bone, grade {n}."));
    let day = |case: &mut serde_json::Value, n: u64| {
        case["setting"]["operation_date"] = json!(format!("2027-02-{:02}", 1 + n % 28))
    };
    let mut disk = Disk::new(&passing.path().join("disk.db"))?;
    let (mut of_ours, mut of_plain) = (Times::default(), Times::default());
    for (name, answer) in
        [("save, a number", &number as &dyn Fn(&mut _, u64)), ("save, a text", &text), ("save, the day", &day)]
    {
        let [in_ours, in_plain, in_disk] = save([&mut ours, &mut plain], &mut disk, &maker, count, answer)?;
        in_ours.print(name, Some(20.0));
        in_plain.print("  the same unencrypted", None);
        in_disk.print("  one number, nothing else", None);
        of_ours.0.extend(in_ours.0);
        of_plain.0.extend(in_plain.0);
    }
    println!();
    ratio("find: to the same unencrypted", &find_ours, &find_plain, None);
    ratio("find: to plain FTS5", &find_ours, &find_raw, Some(1.5));
    ratio("save: to the same unencrypted", &of_ours, &of_plain, None);
    Ok(())
}

/// Makes the notebook and its peer, at the same time; each one's time is told.
fn make(
    path: &Path,
    raw_path: &Path,
    words: &Passphrase,
    maker: &Maker,
    count: u64,
    now: LocalTime,
) -> Result<(), Failure> {
    let mut ours = Notebook::create(path, words, "Ms Orla Quill", Cost::ORDINARY, now)?;
    let mut raw = Raw::new(raw_path)?;
    let [mut in_raw, mut in_ours] = [Duration::ZERO; 2];
    for first in (0..count).step_by(usize::try_from(AT_ONCE)?) {
        let cases = (first..count.min(first + AT_ONCE)).map(|n| maker.case(n)).collect::<Result<Vec<Case>, _>>()?;
        let for_ours = cases.iter().map(|case| (case.clone(), Default::default())).collect();
        let first = i64::try_from(first)?;
        std::thread::scope(|scope| {
            let beside = scope.spawn(|| timed(&mut in_raw, || raw.add(&cases, first)));
            timed(&mut in_ours, || ours.add_all(for_ours, now))?;
            beside.join().map_err(|_| "the plain FTS5 table was not made")??;
            Ok::<_, Failure>(())
        })?;
    }
    println!(
        "{count} cases added in {:.0} s, {:.0} MiB; beside it the plain FTS5 table in {:.0} s",
        in_ours.as_secs_f64(),
        std::fs::metadata(path)?.len() as f64 / 1_048_576.0,
        in_raw.as_secs_f64()
    );
    Ok(())
}

fn timed<T>(sum: &mut Duration, act: impl FnOnce() -> T) -> T {
    let begun = Instant::now();
    let done = act();
    *sum += begun.elapsed();
    done
}

/// Types each text letter by letter, three times over, the first of them to warm up.
fn find(act: impl Fn(&str) -> Result<usize, Failure>) -> Result<Times, Failure> {
    let mut times = Times::default();
    for round in 0..4 {
        for typed in TYPED {
            for end in 1..=typed.len() {
                let Some(beginning) = typed.get(..end) else { continue };
                let begun = Instant::now();
                std::hint::black_box(act(beginning)?);
                let took = begun.elapsed();
                if round > 0 {
                    times.0.push(took);
                }
                if round == 3 && took > SLOW {
                    println!("    slow: “{beginning}” {:.1} ms", took.as_secs_f64() * 1000.0);
                }
            }
        }
    }
    Ok(times)
}

/// Changes one answer in entries all over the notebook, in ours and in the other one by turns; between them, the disk.
fn save(
    notebooks: [&mut Notebook; 2],
    disk: &mut Disk,
    maker: &Maker,
    count: u64,
    answer: &dyn Fn(&mut serde_json::Value, u64),
) -> Result<[Times; 3], Failure> {
    let now: LocalTime = "2026-11-21T09:00".parse()?;
    let [mut ours, mut plain, mut alone] = [Times::default(), Times::default(), Times::default()];
    let [of_ours, of_plain] = notebooks;
    for n in 0..SAVES {
        let id = maker.case(n * 7_919 % count)?.id;
        for (notebook, times) in [(&mut *of_ours, &mut ours), (&mut *of_plain, &mut plain)] {
            let stored = notebook.show(id)?;
            let mut value = stored.case.to_value();
            answer(&mut value, n);
            let case = evengap_case::read_value(value).map_err(|refusal| refusal.to_string())?.case;
            times.take(|| notebook.save(&case, Some(stored.node), now))?;
        }
        alone.take(|| disk.commit())?;
    }
    Ok([ours, plain, alone])
}

/// The smallest commit that is as durable as a save: what every save waits for the disk, whatever is in it.
struct Disk(rusqlite::Connection);

impl Disk {
    fn new(path: &Path) -> rusqlite::Result<Self> {
        let connection = rusqlite::Connection::open(path)?;
        connection.execute_batch(include_str!("../../src/file/settle.sql"))?;
        connection.execute_batch("CREATE TABLE number (n INTEGER); INSERT INTO number VALUES (0);")?;
        Ok(Self(connection))
    }

    fn commit(&mut self) -> rusqlite::Result<usize> {
        self.0.execute("UPDATE number SET n = n + 1", [])
    }
}

#[derive(Default)]
struct Times(Vec<Duration>);

impl Times {
    fn take<T, E>(&mut self, act: impl FnOnce() -> Result<T, E>) -> Result<(), E> {
        let begun = Instant::now();
        let done = std::hint::black_box(act()?);
        self.0.push(begun.elapsed());
        drop(done);
        Ok(())
    }

    /// The time (ms) within which this share of all took place.
    fn at(&self, share: f64) -> f64 {
        let mut sorted = self.0.clone();
        sorted.sort();
        let place = ((sorted.len() - 1) as f64 * share).round() as usize;
        sorted[place].as_secs_f64() * 1000.0
    }

    fn sum(&self) -> f64 {
        self.0.iter().sum::<Duration>().as_secs_f64()
    }

    fn print(&self, name: &str, target: Option<f64>) {
        let (median, p99, worst) = (self.at(0.5), self.at(0.99), self.at(1.0));
        let said = target.map_or(String::new(), |target| {
            let met = if median < target && p99 < target { "met" } else { "NOT MET" };
            format!("   < {target:.0} ms at median and p99: {met}")
        });
        println!("{name:<34}{median:>7.2} ms{p99:>7.2} ms{worst:>7.2} ms{said}");
    }
}

fn ratio(name: &str, ours: &Times, other: &Times, target: Option<f64>) {
    let (ratio, medians) = (ours.sum() / other.sum(), ours.at(0.5) / other.at(0.5));
    let said = target
        .map_or(String::new(), |target| format!("   ≤ {target}: {}", if ratio <= target { "met" } else { "NOT MET" }));
    println!("{name:<34} sum {ratio:.2}, medians {medians:.2}{said}");
}
