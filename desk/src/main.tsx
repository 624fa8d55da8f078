import { render } from "preact";
import { App } from "./app";
import "./page.css";

render(<App />, document.getElementById("page")!);
