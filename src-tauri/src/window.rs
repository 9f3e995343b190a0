//! The one window: how it opens, what it may show, and how it closes without losing the last words.

use std::sync::PoisonError;
use std::time::{Duration, Instant};

use tauri::utils::config::Color;
use tauri::{App, Manager, Url, WebviewUrl, WebviewWindowBuilder, Window, WindowEvent};

use crate::desktop::Desktop;

/// Name of the one window.
const MAIN: &str = "main";

/// Asks the page to save and then to close; the name is also in `ui/src/bridge`.
const ASK_PAGE: &str = "window.dispatchEvent(new Event('evengap-closing'))";

/// A second request within this time closes even if the page has not answered.
const INSIST: Duration = Duration::from_secs(10);

/// Tells whether there is a screen to open a window on.
///
/// # Errors
/// A sentence, when there is none.
#[cfg(target_os = "linux")]
pub fn need_display() -> Result<(), String> {
    // Tauri itself would panic here.
    let there = gtk::init();
    there.map_err(|_| "There is no display to open a window on. Start it from a desktop session.".to_owned())
}

/// Other systems always have a screen.
///
/// # Errors
/// Never.
#[cfg(not(target_os = "linux"))]
pub fn need_display() -> Result<(), String> {
    Ok(())
}

/// Opens the window on the built page.
///
/// # Errors
/// When the system refuses a window.
pub fn open(app: &App) -> tauri::Result<()> {
    let state = app.state::<Desktop>().folders.data.join("window");
    WebviewWindowBuilder::new(app, MAIN, WebviewUrl::default())
        .title("Evengap")
        .inner_size(1440.0, 900.0)
        .min_inner_size(900.0, 600.0)
        .background_color(Color(243, 238, 227, 255))
        .data_directory(state)
        .on_navigation(is_own_page)
        // Windows would keep what is typed into boxes, names among it, readable in that folder.
        .general_autofill_enabled(false)
        // The page itself takes the pictures that are dropped on it.
        .disable_drag_drop_handler()
        .build()?;
    Ok(())
}

/// Only the page that is inside the program may be shown, whatever a link or a dropped file asks for.
fn is_own_page(url: &Url) -> bool {
    url.scheme() == "tauri" || url.host_str() == Some("tauri.localhost")
}

/// Lets the page save what was typed last before the window closes.
pub fn on_event(window: &Window, event: &WindowEvent) {
    let WindowEvent::CloseRequested { api, .. } = event else { return };
    let desktop = window.state::<Desktop>();
    let mut asked = desktop.close_asked.lock().unwrap_or_else(PoisonError::into_inner);
    let insisted = asked.replace(Instant::now()).is_some_and(|before| before.elapsed() < INSIST);
    let page = window.get_webview_window(MAIN);
    if !insisted && page.is_some_and(|page| page.eval(ASK_PAGE).is_ok()) {
        api.prevent_close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(url: &str, expected: bool) {
        assert_eq!(Url::parse(url).map(|url| is_own_page(&url)), Ok(expected), "{url}");
    }

    #[test]
    fn shows_its_own_page_only() {
        check("tauri://localhost/index.html", true);
        check("http://tauri.localhost/", true);
        check("https://example.org/", false);
        check("file:///home/m/x.html", false);
        check("http://localhost:5173/", false);
    }
}
