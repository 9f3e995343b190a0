//! The few filters that templates use to set sentences. None reads anything but its argument.

use tera::{ArgFromValue, Kwargs, State, StringInput, Tera, TeraResult, Value};

use super::escape::guard_start;

/// Registers all filters.
pub fn register(tera: &mut Tera) {
    tera.register_filter("section", section);
    tera.register_filter("paragraph", paragraph);
    tera.register_filter("lines", lines);
    tera.register_filter("clauses", clauses);
    tera.register_filter("row", row);
    tera.register_filter("boxed", boxed);
    tera.register_filter("stop", stop);
    tera.register_filter("sentence", sentence);
    tera.register_filter("and_list", and_list);
    tera.register_filter("cap", cap);
}

/// Puts a heading over its body, or prints nothing where the body is empty.
fn section(body: StringInput, kwargs: Kwargs, _: &State) -> TeraResult<Value> {
    let title: String = kwargs.must_get("title")?;
    let level: usize = kwargs.get("level")?.unwrap_or(2).clamp(1, 4);
    let text = body.as_str().trim();
    let text = if text.is_empty() { String::new() } else { format!("{} {title}\n\n{text}\n\n", "#".repeat(level)) };
    Ok(body.inherit_safety(text))
}

/// Joins its body into one paragraph; an empty body prints nothing.
fn paragraph(body: StringInput, _: Kwargs, _: &State) -> Value {
    let text = body.as_str().split_ascii_whitespace().collect::<Vec<_>>().join(" ");
    body.inherit_safety(guard_start(&text))
}

/// Keeps the lines of its body that hold something: for lists and tables.
fn lines(body: StringInput, _: Kwargs, _: &State) -> Value {
    let kept: Vec<_> = body.as_str().lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    body.inherit_safety(kept.join("\n"))
}

/// Frames its body as a box (a Markdown block quote); an empty body prints nothing.
fn boxed(body: StringInput, _: Kwargs, _: &State) -> Value {
    let framed: Vec<_> = body.as_str().trim().lines().map(|line| format!("> {line}").trim_end().to_owned()).collect();
    let text = if body.as_str().trim().is_empty() { String::new() } else { framed.join("\n") };
    body.inherit_safety(text)
}

/// Joins the lines of its body that hold something: "start first; second; third end".
///
/// An empty body prints nothing, not even `start` and `end`.
fn clauses(body: StringInput, kwargs: Kwargs, _: &State) -> TeraResult<Value> {
    let start: String = kwargs.get("start")?.unwrap_or_default();
    let end: String = kwargs.get("end")?.unwrap_or_default();
    let sep: String = kwargs.get("sep")?.unwrap_or_else(|| "; ".to_owned());
    let kept: Vec<_> = body.as_str().lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    let text = if kept.is_empty() { String::new() } else { format!("{start}{}{end}", kept.join(&sep)) };
    Ok(body.inherit_safety(text))
}

/// Makes a row of a two-column table; an empty body prints no row.
fn row(body: StringInput, kwargs: Kwargs, _: &State) -> TeraResult<Value> {
    let label: String = kwargs.must_get("label")?;
    let text = body.as_str().split_ascii_whitespace().collect::<Vec<_>>().join(" ");
    let text = if text.is_empty() { text } else { format!("| {label} | {text} |\n") };
    Ok(body.inherit_safety(text))
}

/// Ends a typed text with a full stop, where no mark stands there.
fn stop(text: &Value, _: Kwargs, _: &State) -> TeraResult<Value> {
    typed(text, |text| with_stop(text.trim().to_owned()))
}

/// Makes a typed text a sentence: capital letter first, full stop last.
fn sentence(text: &Value, _: Kwargs, _: &State) -> TeraResult<Value> {
    typed(text, |text| with_stop(capital(text.trim())))
}

/// Makes the first letter a capital.
fn cap(text: &Value, _: Kwargs, _: &State) -> TeraResult<Value> {
    typed(text, capital)
}

/// Changes a text; what is not recorded stays not recorded.
fn typed(text: &Value, change: impl Fn(&str) -> String) -> TeraResult<Value> {
    if text.is_none() {
        return Ok(Value::none());
    }
    let text = StringInput::from_value(text)?;
    Ok(text.inherit_safety(change(text.as_str())))
}

fn with_stop(mut text: String) -> String {
    let last = text.chars().rev().find(|c| !matches!(c, '”' | '"' | ')' | '*'));
    if last.is_some_and(|last| !".!?:;…".contains(last)) || text.ends_with(')') {
        text.push('.');
    }
    text
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// Joins texts as in a sentence: "a", "a and b", "a, b and c".
fn and_list(items: Vec<String>, kwargs: Kwargs, _: &State) -> TeraResult<String> {
    let and: String = kwargs.get("and")?.unwrap_or_else(|| "and".to_owned());
    Ok(match items.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [firsts @ .., last] => format!("{} {and} {last}", firsts.join(", ")),
    })
}
