//! Pictures that take longer than a window frame: they are made beside the window, and the last one stays until the new
//! one is there.

use std::sync::mpsc::{Receiver, RecvTimeoutError, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use egui::{Context, Id, Ui};

/// How long the first one is waited for, so that a view that is quickly made does not begin empty.
const FIRST: Duration = Duration::from_millis(250);
/// What takes longer than this is said to be on its way.
const UNNOTICED: Duration = Duration::from_millis(300);

/// Under which id it is noted that pictures are on their way.
const ON_THEIR_WAY_ID: &str = "pictures on their way";

/// What is there to be shown.
pub(crate) struct Beside<T> {
    /// The newest one that is made; `None` before the first.
    pub(crate) made: Option<Arc<T>>,
    /// Whether another one has been on its way for so long that the user wonders.
    pub(crate) is_late: bool,
}

/// What is made and what is being made.
struct Making<K, T> {
    made: Option<(K, Arc<T>)>,
    going: Option<(K, Instant, Receiver<T>)>,
}

impl<K: PartialEq, T> Making<K, T> {
    /// Takes what has come; `wait` is how long it may take.
    fn take(&mut self, wait: Duration) {
        let Some((_, _, receiver)) = &self.going else { return };
        let come = if wait.is_zero() {
            receiver.try_recv()
        } else {
            receiver.recv_timeout(wait).map_err(|why| match why {
                RecvTimeoutError::Timeout => TryRecvError::Empty,
                RecvTimeoutError::Disconnected => TryRecvError::Disconnected,
            })
        };
        match come {
            Ok(value) => self.made = self.going.take().map(|(key, ..)| (key, Arc::new(value))),
            Err(TryRecvError::Empty) => {}
            // The thread broke off: what was there stays, and the next change starts another.
            Err(TryRecvError::Disconnected) => self.going = None,
        }
    }
}

/// What was made for `key`, or what was made last while that is on its way. One is made at a time: changes that come
/// meanwhile are taken together.
pub(crate) fn made_beside<K, T>(ui: &Ui, id: Id, key: K, make: impl FnOnce() -> T + Send + 'static) -> Beside<T>
where
    K: PartialEq + Send + 'static,
    T: Send + Sync + 'static,
{
    let making: Arc<Mutex<Making<K, T>>> = ui
        .data_mut(|d| Arc::clone(d.get_temp_mut_or_insert_with(id, || Arc::new(Mutex::new(Making { made: None, going: None })))));
    let mut making = making.lock().unwrap_or_else(PoisonError::into_inner);
    making.take(Duration::ZERO);
    let is_current = making.made.as_ref().is_some_and(|(made, _)| *made == key);
    if !is_current && making.going.is_none() {
        let (sender, receiver) = channel();
        let ctx = ui.ctx().clone();
        thread::spawn(move || {
            // Nobody waits where the window is gone.
            drop(sender.send(make()));
            ctx.request_repaint();
        });
        making.going = Some((key, Instant::now(), receiver));
        if making.made.is_none() {
            making.take(FIRST);
        }
    }
    if making.going.is_some() {
        let frame = ui.ctx().cumulative_frame_nr();
        ui.data_mut(|d| d.insert_temp(Id::unique(ON_THEIR_WAY_ID), frame));
    }
    let is_late = making.going.as_ref().is_some_and(|(_, since, _)| since.elapsed() > UNNOTICED);
    if making.going.is_some() && !is_late {
        ui.ctx().request_repaint_after(UNNOTICED);
    }
    Beside { made: making.made.as_ref().map(|(_, made)| Arc::clone(made)), is_late }
}

/// Whether the last window frame showed pictures while newer ones were on their way.
pub(crate) fn are_on_their_way(ctx: &Context) -> bool {
    let last = ctx.data(|d| d.get_temp::<u64>(Id::unique(ON_THEIR_WAY_ID)));
    last.is_some_and(|frame| frame + 1 >= ctx.cumulative_frame_nr())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(ctx: &egui::Context, key: u32, make: impl FnOnce() -> u32 + Send + 'static) -> Option<u32> {
        let mut found = None;
        let mut make = Some(make);
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            if let Some(make) = make.take() {
                found = made_beside(ui, Id::unique("beside"), key, make).made.map(|made| *made);
            }
        });
        output.textures_delta.clear();
        found
    }

    #[test]
    fn the_last_stays_until_the_next_is_made() {
        let ctx = egui::Context::default();
        assert_eq!(shown(&ctx, 1, || 10), Some(10), "the first is waited for");
        let (open, gate) = channel::<()>();
        let slow = move || {
            gate.recv().unwrap();
            20
        };
        assert_eq!(shown(&ctx, 2, slow), Some(10));
        // A change that comes meanwhile starts nothing of its own.
        assert_eq!(shown(&ctx, 3, || panic!("two at a time")), Some(10));
        open.send(()).unwrap();
        let began = Instant::now();
        let mut found = shown(&ctx, 3, || 30);
        while found != Some(30) && began.elapsed() < Duration::from_secs(20) {
            thread::sleep(Duration::from_millis(5));
            found = shown(&ctx, 3, || 30);
        }
        assert_eq!(found, Some(30));
    }

    #[test]
    fn what_breaks_off_leaves_the_last() {
        let ctx = egui::Context::default();
        assert_eq!(shown(&ctx, 1, || 10), Some(10));
        let breaks = || std::panic::resume_unwind(Box::new("broken off"));
        assert_eq!(shown(&ctx, 2, breaks), Some(10));
        thread::sleep(Duration::from_millis(50));
        let began = Instant::now();
        while shown(&ctx, 2, || 20) != Some(20) {
            assert!(began.elapsed() < Duration::from_secs(20));
            thread::sleep(Duration::from_millis(5));
        }
    }
}
