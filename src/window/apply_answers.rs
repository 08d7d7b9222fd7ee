//! Questions answered and paths chosen: what was asked for is done with them.

use std::path::PathBuf;

use eframe::Frame;
use egui::Context;

use super::app::{Chooser, Window};
use super::edits::Edit;
use super::file_names::{file_name, with_ending};
use super::labels::notices as labels;
use super::question::{Answer, Purpose, Question, Saving, Then};
use super::work::{Chosen, Done, file_dialog};

impl Window {
    /// Asks for a path: by the desktop's dialog, or typed.
    pub(super) fn choose(&mut self, purpose: Purpose, suggested: String, ctx: &Context, desktop: Option<&Frame>) {
        match self.chooser {
            Chooser::Desktop => {
                let name = suggested.rsplit('/').next().unwrap_or(&suggested).to_owned();
                self.work.push(file_dialog(ctx, desktop, purpose, &name));
            }
            Chooser::Typed => self.ask_path(purpose, suggested, ""),
        }
    }

    /// Asks for a typed path.
    pub(super) fn ask_path(&mut self, purpose: Purpose, text: String, why: &str) {
        self.moment.question = Some(Question::Path { purpose, text, why: why.to_owned() });
    }

    /// Takes what dialogs and pictures came to.
    pub(super) fn take_work(&mut self, ctx: &Context) {
        let mut done = Vec::new();
        self.work.retain(|work| match work.poll() {
            Ok(result) => {
                done.push((work.label, result));
                false
            }
            Err(()) => true,
        });
        for (label, result) in done {
            match result {
                None => {
                    self.stay_open();
                    self.moment.notify(labels::failed_try_again(&label));
                }
                Some(Done::Chosen(purpose, Chosen::Paths(paths))) => self.take_paths(purpose, paths, true, ctx),
                Some(Done::Chosen(_, Chosen::Nothing)) => self.then = None,
                Some(Done::Chosen(purpose, Chosen::NoDialog)) => {
                    let text = self.suggestion(purpose);
                    self.ask_path(purpose, text, labels::NO_FILE_DIALOG);
                }
                Some(Done::Picture(path, replace, made)) => self.keep_picture(&path, replace, made),
                Some(Done::Published(folder, published)) => self.tell_published(folder, published),
                Some(Done::Copied(made)) => match made.and_then(|pixels| Ok(self.clipboard.copy_picture(pixels)?)) {
                    Ok(()) => labels::PICTURE_COPIED_TO_THE_CLIPBOARD.clone_into(&mut self.moment.status),
                    Err(problem) => self.moment.notify(problem.to_string()),
                },
            }
        }
        self.go_on_quitting(ctx);
    }

    /// The path that is suggested.
    pub(super) fn suggestion(&self, purpose: Purpose) -> String {
        let folder = self.document.path().and_then(|p| p.parent()).map(|p| format!("{}/", p.display())).unwrap_or_default();
        let name = file_name(&self.document.name());
        match purpose {
            Purpose::Open => String::new(),
            Purpose::SaveLineup => format!("{folder}{name}.lineup.ron"),
            Purpose::SaveFrame(key) => self.frame_file_suggestion(key),
            Purpose::SavePicture => format!("{folder}{}", self.picture_name()),
            Purpose::SavePattern(frame) => format!("{folder}{}", self.pattern_name(frame)),
            Purpose::SaveSheet => format!("{folder}{}.png", self.sheet_name()),
            Purpose::Publish => format!("{folder}{}", self.sheet_name()),
        }
    }

    fn picture_name(&self) -> String {
        let view = self.moment.view.label().to_lowercase().replace(' ', "-");
        let ending = if self.picture.as_ref().is_some_and(|p| p.is_png) { "png" } else { "svg" };
        format!("{}-{view}.{ending}", file_name(&self.document.name()))
    }

    /// Goes on with chosen paths. A dialog has asked about writing over a file already; a typed path has not.
    fn take_paths(&mut self, purpose: Purpose, paths: Vec<PathBuf>, has_asked: bool, ctx: &Context) {
        if purpose == Purpose::Open {
            self.open(paths);
            return;
        }
        let Some(path) = paths.into_iter().next() else { return };
        if purpose == Purpose::Publish {
            self.publish_into(path, ctx);
            return;
        }
        let is_png = self.picture.as_ref().is_some_and(|p| p.is_png);
        let ending = match purpose {
            Purpose::SavePicture if is_png => ".png",
            Purpose::SaveSheet => ".png",
            Purpose::SavePicture => ".svg",
            Purpose::SaveFrame(_) => ".frame.ron",
            Purpose::SavePattern(_) => ".pdf",
            _ => ".lineup.ron",
        };
        let whole = with_ending(&path, ending);
        let has_asked = has_asked && whole == path;
        let saving = match purpose {
            Purpose::SaveLineup => Some(Saving::Lineup),
            Purpose::SaveFrame(key) => Some(Saving::Frame(key)),
            _ => None,
        };
        if let Some(saving) = saving {
            self.save_chosen(saving, whole, has_asked, ctx);
            return;
        }
        self.picture_chosen(purpose, whole, has_asked, ctx);
    }

    /// Goes on with the answer to the open question.
    pub(super) fn answer(&mut self, answer: Answer, ctx: &Context, desktop: Option<&Frame>) {
        let question = self.moment.question.take();
        match (answer, question) {
            (Answer::Save, Some(Question::Unsaved(then))) => {
                self.then = Some(then);
                self.save(ctx, desktop);
            }
            (Answer::Discard, Some(Question::Unsaved(then))) => self.go_on_with(then, ctx),
            (Answer::Paths(purpose, paths), _) => self.take_paths(purpose, paths, false, ctx),
            (answer, Some(Question::Busy { busy, revision, .. })) => self.answer_busy(&answer, busy, revision),
            (answer, Some(Question::ReplacePicture { purpose, path, occupant })) => match answer {
                Answer::Replace => self.picture_agreed(purpose, path, &occupant, ctx),
                Answer::SaveElsewhere => {
                    let suggested = self.suggestion(purpose);
                    self.choose(purpose, suggested, ctx, desktop);
                }
                _ => {}
            },
            (Answer::Picture(choice), _) => {
                self.session.picture = choice.size().unwrap_or(self.session.picture);
                self.session.is_picture_dark = choice.is_dark;
                self.picture = Some(choice);
                let suggested = self.suggestion(Purpose::SavePicture);
                self.choose(Purpose::SavePicture, suggested, ctx, desktop);
            }
            (Answer::Words(title, notes), _) => self.edit(Edit::Words { title, notes }),
            (Answer::Imported(frameset, came_from), _) => self.import(*frameset, came_from.as_deref()),
            (Answer::Added(key, frameset), _) => self.add_specification(key, *frameset),
            (Answer::Restore, Some(Question::Restore(_))) => self.leave(Then::Restore, ctx),
            (Answer::DiscardLeft, Some(Question::Restore(_))) => self.discard_left(),
            (Answer::Cancel, Some(Question::Restore(_))) => self.postpone_left(),
            (Answer::Open, Some(Question::OpenElsewhere(then))) => self.leave(then, ctx),
            (answer, Some(Question::SaveOver { saving, path, obstacle, agreed })) => match answer {
                Answer::KeepBoth => self.keep_both(saving, &path, ctx),
                Answer::ReadAgain => self.read_again(saving, path),
                Answer::Replace => self.save_agreed(saving, path, obstacle, agreed, ctx),
                Answer::SaveElsewhere => self.save_elsewhere(saving, ctx, desktop),
                _ => self.then = None,
            },
            _ => {
                self.then = None;
                self.next_table();
            }
        }
    }
}
