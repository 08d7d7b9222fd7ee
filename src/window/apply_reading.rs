//! Files in: what was read since the last frame is taken, a frame, a table or a line-up at a time; reading can be stopped.

use std::path::PathBuf;
use std::time::Duration;

use egui::Context;

use super::app::Window;
use super::edits::Edit;
use super::file_names::base_name;
use super::labels::notices as labels;
use super::moment::Reading;
use super::question::Then;
use super::reader::ReadPurpose;
use crate::disk::FileIdentity;
use crate::frameset::FrameIndex;

/// How often the window looks for a file that lets it wait.
const SLOW: Duration = Duration::from_millis(30);

impl Window {
    /// Begins to read these files.
    pub(super) fn open(&mut self, paths: Vec<PathBuf>) {
        self.moment.reading.get_or_insert_with(Reading::default).queue(paths, ReadPurpose::Open);
    }

    /// Takes what was read since the last frame.
    pub(super) fn go_on_reading(&mut self, ctx: &Context) {
        let Some(reading) = &mut self.moment.reading else { return };
        let progress = reading.go_on();
        let is_slow = reading.is_slow;
        if let Some(computed) = progress.computed {
            self.document.expect(computed);
        }
        for path in &progress.good {
            self.session.remember(path);
        }
        self.moment.tables.extend(progress.tables);
        self.next_table();
        for problem in progress.problems {
            self.moment.notify(problem);
        }
        for (saving, path, opened) in progress.again {
            self.take_again(saving, &path, opened);
        }
        for (lineup, file) in progress.lineups {
            self.open_lineup(lineup, file, ctx);
        }
        if progress.is_done {
            self.end_reading();
        }
        if is_slow && !progress.is_done {
            ctx.request_repaint_after(SLOW);
        } else {
            ctx.request_repaint();
        }
    }

    fn end_reading(&mut self) {
        let Some(reading) = self.moment.reading.take() else { return };
        if reading.frames.is_empty() {
            return;
        }
        let first = self.document.lineup().frames.len();
        let (frames, files): (Vec<_>, Vec<FileIdentity>) =
            reading.frames.into_iter().map(|(frameset, file)| ((frameset, base_name(&file.path)), file)).unzip();
        self.edit(Edit::Add(frames));
        self.document.end_gesture();
        for (place, file) in (first..).zip(files) {
            self.document.tie(FrameIndex(place), file);
        }
        if reading.is_start {
            self.document.mark_start();
        } else {
            self.moment.selected = FrameIndex(first);
        }
    }

    /// Stops reading and whatever else goes on; what was read stays.
    pub(super) fn stop(&mut self, ctx: &Context) {
        if let Some(reading) = &mut self.moment.reading {
            let left = match reading.total - reading.done {
                1 => labels::ONE_FILE_WAS_NOT_READ.to_owned(),
                left => labels::files_were_not_read(&left),
            };
            let lineups = std::mem::take(&mut reading.lineups);
            self.moment.notify(labels::reading_was_stopped(&left));
            for (lineup, file) in lineups {
                self.leave(Then::Replace(Box::new(lineup), file), ctx);
            }
            self.end_reading();
        }
        self.stop_work();
    }
}
