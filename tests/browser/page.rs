//! What a person does to the page and sees of it, one method each. A method that cannot do
//! its job ends the test and says what it was about.

use crate::driver::Driver;
use axum::Router;
use fantoccini::actions::{
    InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, MouseActions, PointerAction,
};
use fantoccini::elements::Element;
use fantoccini::{Client, Locator};
use serde_json::{Value, json};
use std::cell::Cell;
use std::fmt::Debug;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;
use std::{fs, thread};
use tokio::net::TcpListener;
use tokio::sync::oneshot;
use tokio::task::JoinHandle;
use tower_http::services::ServeDir;

/// How long a person would wait before calling it broken.
const PATIENCE: Duration = Duration::from_secs(15);

/// The page in a window of its own, with nothing stored from earlier.
pub struct Page {
    pub client: Client,
    pub address: String,
    /// An empty folder in which the page's downloads land.
    pub downloads: PathBuf,
    driver: Driver,
    held_at: Cell<(f64, f64)>,
    server: Option<(oneshot::Sender<()>, JoinHandle<()>)>,
}

/// Somewhere to point at: the middle of an element, or a place in the window.
#[derive(Clone, Copy)]
pub enum Spot<'a> {
    Middle(&'a str),
    At(f64, f64),
}

impl<'a> From<&'a str> for Spot<'a> {
    fn from(selector: &'a str) -> Self {
        Self::Middle(selector)
    }
}

impl From<(f64, f64)> for Spot<'_> {
    fn from((x, y): (f64, f64)) -> Self {
        Self::At(x, y)
    }
}

impl Page {
    /// Opens the built page in a window whose content has this size.
    pub async fn start(width: u32, height: u32) -> Self {
        let www = Path::new(env!("CARGO_MANIFEST_DIR")).join("www");
        Self::start_in(&www, width, height).await
    }

    /// Opens `index.html` of any folder.
    pub async fn start_in(folder: &Path, width: u32, height: u32) -> Self {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let downloads = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("downloads-{number}"));
        let _ = fs::remove_dir_all(&downloads);
        fs::create_dir_all(&downloads).unwrap();

        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = format!("http://{}/", listener.local_addr().unwrap());
        let (stop, stopped) = oneshot::channel();
        let files = Router::new().fallback_service(ServeDir::new(folder));
        let serving = tokio::spawn(async move {
            let server = axum::serve(listener, files).with_graceful_shutdown(async {
                let _ = stopped.await;
            });
            server.await.unwrap();
        });

        let (driver, client) = Driver::start(&downloads).await;
        let page = Self {
            client,
            address,
            downloads,
            driver,
            held_at: Cell::new((0.0, 0.0)),
            server: Some((stop, serving)),
        };
        page.resize(width, height).await;
        page.open("").await;
        page
    }

    /// Goes to a path of the served folder.
    pub async fn open(&self, path: &str) {
        let url = format!("{}{path}", self.address);
        known(&url, self.client.goto(&url).await);
    }

    /// Gives the content of the window this size; its frame comes on top.
    pub async fn resize(&self, width: u32, height: u32) {
        let frame = "return [outerWidth - innerWidth, outerHeight - innerHeight]";
        let frame = self.js(frame, vec![]).await;
        let with = |content: u32, at: usize| content + frame[at].as_u64().unwrap_or(0) as u32;
        let size = self.client.set_window_size(with(width, 0), with(height, 1));
        known("resize", size.await);
    }

    pub async fn reload(&self) {
        known("reload", self.client.refresh().await);
    }

    /// Stops the server, as when the network is gone. A reload then still "works" by showing
    /// the browser's error page, so look for something of ours afterwards.
    pub async fn stop_server(&mut self) {
        if let Some((stop, mut serving)) = self.server.take() {
            let _ = stop.send(());
            if tokio::time::timeout(PATIENCE, &mut serving).await.is_err() {
                panic!("the server does not stop");
            }
        }
    }

    /// The first element that matches, once there is one.
    pub async fn wait_for(&self, selector: &str) -> Element {
        let wait = self.client.wait().at_most(PATIENCE);
        let wait = wait.every(Duration::from_millis(20));
        known(selector, wait.for_element(Locator::Css(selector)).await)
    }

    /// Waits until a JavaScript expression holds.
    pub async fn wait_until(&self, expression: &str) {
        let script = format!("return Boolean({expression})");
        let holds = async {
            while self.js(&script, vec![]).await != true {
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
        };
        if tokio::time::timeout(PATIENCE, holds).await.is_err() {
            panic!("never came true: {expression}");
        }
    }

    /// How many elements match now.
    pub async fn count(&self, selector: &str) -> usize {
        let found = self.client.find_all(Locator::Css(selector)).await;
        known(selector, found).len()
    }

    /// The text that a person sees.
    pub async fn text(&self, selector: &str) -> String {
        known(selector, self.wait_for(selector).await.text().await)
    }

    pub async fn attr(&self, selector: &str, name: &str) -> Option<String> {
        known(selector, self.wait_for(selector).await.attr(name).await)
    }

    /// A property as it is now, such as the `value` of a field.
    pub async fn prop(&self, selector: &str, name: &str) -> Option<String> {
        known(selector, self.wait_for(selector).await.prop(name).await)
    }

    /// Left, top, width and height in the window; unlike the driver's own, right for SVG.
    pub async fn place(&self, selector: &str) -> [f64; 4] {
        self.wait_for(selector).await;
        let script = "const e = document.querySelector(arguments[0]);
            e.scrollIntoView({ block: 'nearest', inline: 'nearest' });
            const r = e.getBoundingClientRect(); return [r.x, r.y, r.width, r.height]";
        let place = self.js(script, vec![json!(selector)]).await;
        serde_json::from_value(place).expect("a rectangle")
    }

    pub async fn click(&self, selector: &str) {
        known(selector, self.wait_for(selector).await.click().await);
    }

    /// Replaces what is in a field and leaves it, as Tab does.
    pub async fn fill(&self, selector: &str, text: &str) {
        let field = self.wait_for(selector).await;
        known(selector, field.clear().await);
        let keys = format!("{text}{}", char::from(fantoccini::key::Key::Tab));
        known(selector, field.send_keys(&keys).await);
    }

    /// Types into an element; into `input[type=file]`, the path of a file to open.
    pub async fn keys(&self, selector: &str, text: &str) {
        let element = self.wait_for(selector).await;
        known(selector, element.send_keys(text).await);
    }

    /// Presses keys together wherever the focus is: `[Key::Shift.into(), Key::Right.into()]`.
    pub async fn press(&self, chord: &[char]) {
        let mut actions = KeyActions::new("keyboard".to_owned());
        for &value in chord {
            actions = actions.then(KeyAction::Down { value });
        }
        for &value in chord.iter().rev() {
            actions = actions.then(KeyAction::Up { value });
        }
        known("press keys", self.client.perform_actions(actions).await);
    }

    /// Takes hold at one spot, moves to another in steps, and lets go.
    pub async fn drag<'a>(&self, from: impl Into<Spot<'a>>, to: impl Into<Spot<'a>>) {
        let from = self.point(from.into()).await;
        let to = self.point(to.into()).await;
        let button = MOUSE_BUTTON_LEFT;
        let mut actions = MouseActions::new("mouse".to_owned())
            .then(move_to(from))
            .then(PointerAction::Down { button });
        for step in steps(from, to) {
            actions = actions.then(move_to(step));
        }
        let actions = actions.then(PointerAction::Up { button });
        known("drag", self.client.perform_actions(actions).await);
    }

    /// Presses the mouse button at a spot and holds it, to look at the page during a drag.
    ///
    /// Not by actions as in `drag`: across two lists of actions the driver loses the page's
    /// pointer capture. These are plain mouse events, so they cannot carry the browser's own
    /// drag and drop.
    pub async fn take<'a>(&self, spot: impl Into<Spot<'a>>) {
        let spot = self.point(spot.into()).await;
        self.driver.mouse("mouseMoved", spot, 0);
        self.driver.mouse("mousePressed", spot, 1);
        self.held_at.set(spot);
    }

    /// Moves what was taken to a spot, in steps.
    pub async fn carry<'a>(&self, spot: impl Into<Spot<'a>>) {
        let spot = self.point(spot.into()).await;
        for step in steps(self.held_at.get(), spot) {
            self.driver.mouse("mouseMoved", step, 1);
        }
        self.held_at.set(spot);
    }

    /// Lets go of what was taken.
    pub fn let_go(&self) {
        self.driver.mouse("mouseReleased", self.held_at.get(), 0);
    }

    async fn point(&self, spot: Spot<'_>) -> (f64, f64) {
        match spot {
            Spot::At(x, y) => (x, y),
            Spot::Middle(selector) => {
                let [x, y, width, height] = self.place(selector).await;
                ((x + width / 2.0).round(), (y + height / 2.0).round())
            }
        }
    }

    /// Runs the body of a function in the page: `return` gives the value, `arguments` the input.
    pub async fn js(&self, script: &str, arguments: Vec<Value>) -> Value {
        known(script, self.client.execute(script, arguments).await)
    }

    /// Uncaught errors, files not found, and `console.error`, since the last call.
    pub fn errors(&self) -> Vec<String> {
        self.driver.console("SEVERE")
    }

    /// Writes what is seen to `target/screens/NAME.png`.
    pub async fn screenshot(&self, name: &str) -> PathBuf {
        let png = known("screenshot", self.client.screenshot().await);
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("../screens");
        fs::create_dir_all(&folder).unwrap();
        let file = folder.join(format!("{name}.png"));
        fs::write(&file, png).unwrap();
        file
    }

    /// The content of a download, once it is complete.
    pub async fn downloaded(&self, name: &str) -> Vec<u8> {
        let file = self.downloads.join(name);
        // The browser writes under another name and renames at the end.
        let complete = async {
            while !file.exists() {
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
        };
        if tokio::time::timeout(PATIENCE, complete).await.is_err() {
            panic!("no download {name}");
        }
        fs::read(file).unwrap()
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        // The reason for a failed test is often in the page's own console.
        if thread::panicking() {
            for line in self.errors() {
                eprintln!("page: {line}");
            }
        }
    }
}

/// The way of a hand: several places in a row, never a jump. Whole pixels, as a mouse gives.
fn steps(from: (f64, f64), to: (f64, f64)) -> impl Iterator<Item = (f64, f64)> {
    const STEPS: i32 = 8;
    (1..=STEPS).map(move |step| {
        let part = f64::from(step) / f64::from(STEPS);
        let x = from.0 + (to.0 - from.0) * part;
        let y = from.1 + (to.1 - from.1) * part;
        (x.round(), y.round())
    })
}

fn move_to((x, y): (f64, f64)) -> PointerAction {
    // One frame of the screen, so that the page draws in between.
    let duration = Some(Duration::from_millis(16));
    PointerAction::MoveTo { duration, x, y }
}

fn known<T, E: Debug>(what: &str, result: Result<T, E>) -> T {
    result.unwrap_or_else(|error| panic!("{what}: {error:?}"))
}
