//! The window: starts Tauri around the desk and shows the built page.
//!
//! Everything that a person can do lives in `evengap-desk`; here are only the edges: arguments, clock,
//! identifiers, folders, and commands that pass questions on.
#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

mod arguments;
mod commands;
mod crash;
mod desktop;
mod folders;
mod window;

use std::process::ExitCode;

use arguments::Asked;
use desktop::Desktop;
use folders::Folders;

fn main() -> ExitCode {
    crash::leave_nothing_behind();
    let folders = match arguments::read(std::env::args_os().skip(1)) {
        Ok(Asked::Window { data }) => Folders::find(data),
        Ok(Asked::Words(words)) => {
            println!("{words}");
            return ExitCode::SUCCESS;
        }
        Err(sentence) => return stop(&sentence, 2),
    };
    match folders.and_then(|folders| run(Desktop::new(folders))) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => stop(&sentence, 1),
    }
}

fn stop(sentence: &str, code: u8) -> ExitCode {
    eprintln!("{sentence}");
    ExitCode::from(code)
}

fn run(desktop: Desktop) -> Result<(), String> {
    window::need_display()?;
    tauri::Builder::default()
        .manage(desktop)
        .setup(|app| Ok(window::open(app)?))
        .on_window_event(window::on_event)
        .invoke_handler(tauri::generate_handler![
            commands::dictionary::dictionary,
            commands::notebook::notebook_current,
            commands::notebook::notebook_open_demonstration,
            commands::notebook::notebook_create,
            commands::notebook::notebook_open,
            commands::notebook::notebook_close,
            commands::notebook::notebook_suggest_path,
            commands::notebook::notebook_lock,
            commands::safety::notebook_verify,
            commands::safety::notebook_back_up,
            commands::safety::notebook_restore,
            commands::safety::backup_settings,
            commands::safety::backup_settings_save,
            commands::safety::lock_after,
            commands::safety::lock_after_save,
            commands::exchange::exchange_write,
            commands::exchange::exchange_read,
            commands::exchange::conflicts,
            commands::exchange::conflict_show,
            commands::exchange::conflict_settle,
            commands::people::people,
            commands::people::person_add,
            commands::people::person_change,
            commands::people::person_remove,
            commands::people::passphrase_change,
            commands::people::passphrase_set,
            commands::people::recovery_sheet,
            commands::cases::cases_find,
            commands::cases::cases_find_newest,
            commands::cases::case_new,
            commands::cases::case_show,
            commands::cases::case_save,
            commands::cases::case_sign,
            commands::cases::case_addendum,
            commands::cases::case_addenda,
            commands::cases::case_history,
            commands::cases::case_review,
            commands::cases::case_reckonings,
            commands::cases::case_drawings,
            commands::scans::scan_read,
            commands::scans::picture_read,
            commands::scans::scanner_separators,
            commands::scans::scanner_separators_save,
            commands::papers::paper_preview,
            commands::papers::paper_suggest_path,
            commands::papers::paper_export,
            commands::papers::paper_preview_of,
            commands::papers::paper_suggest_path_of,
            commands::papers::paper_export_of,
            commands::papers::papers_batch,
            commands::papers::papers_batch_cancel,
            commands::templates::templates,
            commands::templates::template_show,
            commands::templates::template_try,
            commands::templates::template_save,
            commands::templates::template_history,
            commands::templates::template_restore,
            commands::templates::template_names,
            commands::papers::paper_settings,
            commands::papers::paper_settings_save,
            commands::limits::limits,
            commands::limits::limits_save,
            commands::window::window_close,
        ])
        .run(tauri::generate_context!())
        .map_err(|error| format!("The window could not be opened: {error}."))
}
