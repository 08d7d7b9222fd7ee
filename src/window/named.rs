//! Names for screen readers, where what is written on a control is too short to stand alone.

use egui::Response;

/// Gives a control the name that it is announced and found by.
pub(crate) fn named(response: &Response, name: impl Into<String>) {
    response.ctx.accesskit_node_builder(response.id, |node| node.set_label(name.into()));
}

/// Gives what is painted a description in sentences.
pub(crate) fn described(response: &Response, name: &str, description: &str) {
    response.ctx.accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::GraphicsDocument);
        node.set_label(name);
        node.set_description(description);
    });
}
