//! The window itself.

use evengap_desk::DeskError;
use tauri::Window;

/// Closes the window; the page calls it when everything typed has been saved.
#[tauri::command]
pub fn window_close(window: Window) -> Result<(), DeskError> {
    window.destroy().map_err(|error| DeskError::failed(format!("The window could not be closed: {error}.")))
}
