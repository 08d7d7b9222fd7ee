#[test]
fn t() {
    let _ = egui_kittest::Harness::new_ui(|ui| {
        ui.label("x");
    });
}
