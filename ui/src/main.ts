// Starts the window.
import { mount } from "svelte";
import "./theme.css";
import "./base.css";
import App from "./App.svelte";
import { applyTheme } from "./frame/theme";

applyTheme();
const target = document.getElementById("window");
if (target) mount(App, { target });
