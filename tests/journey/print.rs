//! The wrap strip on paper: printed by the page's own key, measured in the file that a printer gets.
//!
//! The key sets the page up for the printer and calls `window.print()`, which here, without a printer,
//! says at once that it is done. The strip stays set up until the page is touched again, as it must for
//! tablets that draw the pages only after that, so the same page is then printed once more, into a file.

use std::f64::consts::PI;

use serde_json::json;

use crate::page::Page;
use crate::pdf::{Sheet, sheets};
use crate::visit::visit;

/// Printing is true to within this, in millimetres.
const TRUE: f64 = 0.1;
/// How far a page may be from its paper: Chromium cuts pages to whole dots of 1/300 in.
const DOT: f64 = 25.4 / 300.0;
/// Thickness of office paper that the strip reckons with: `mechanics::strip`.
const PAPER: f64 = 0.1;
/// ISO 216, held across.
const A4: (f64, f64) = (297.0, 210.0);
/// 11 by 8.5 in by ANSI/ASME Y14.1, at 25.4 mm.
const LETTER: (f64, f64) = (279.4, 215.9);

fn printed(page: &Page) -> Vec<Sheet> {
    let file = page.call("Page.printToPDF", json!({"preferCSSPageSize": true}));
    sheets(file["data"].as_str().unwrap())
}

fn close(what: &str, found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{what}: {found} mm where {wanted} mm is wanted");
}

/// Widths of what is wide: lines that lie across, and boxes.
fn wide(places: &[[(f64, f64); 2]], flat: bool) -> Vec<f64> {
    let size = |[a, b]: &[(f64, f64); 2]| ((b.0 - a.0).abs(), (b.1 - a.1).abs());
    let across = places.iter().map(size).filter(|(_, height)| !flat || *height < 0.01);
    across.map(|(width, _)| width).filter(|width| *width > 50.0).collect()
}

/// Sets the strip up for the printer.
fn tap_print(page: &Page, paper: &str) {
    page.choose("Paper in the printer", paper);
    page.tap_word(".wrap button", "Print the wrap strip");
    page.until("the strip set up", "!!document.querySelector('#print-strip').firstChild");
}

/// Prints the strip and measures it: so many pages of this paper, a true bar on each, and the pieces
/// together once round the tube and its paper.
fn measure(page: &Page, paper: (&str, (f64, f64)), pages: usize, diameter: f64) {
    tap_print(page, paper.0);
    let found = printed(page);
    assert_eq!(found.len(), pages, "pages of {} for {diameter} mm", paper.0);
    let mut length = 0.0;
    for sheet in &found {
        close("width of the page", sheet.paper.0, paper.1.0, 2.0 * DOT);
        close("height of the page", sheet.paper.1, paper.1.1, 2.0 * DOT);
        let bars = wide(&sheet.lines, true);
        assert_eq!(bars.len(), 2, "the check bar in both units, and nothing else as wide: {bars:?}");
        // As is written beside them: 100 mm, and 4 in of 25.4 mm.
        close("bar of 100 mm", bars[0], 100.0, TRUE);
        close("bar of 4 in", bars[1], 101.6, TRUE);
        let outline = wide(&sheet.boxes, false);
        assert_eq!(outline.len(), 1, "one outline to cut along: {outline:?}");
        length += outline[0];
    }
    // Geometry of the circle: paper bends about its middle.
    close("the strip", length, PI * (diameter + PAPER), TRUE);
}

#[test]
fn the_wrap_strip_is_printed_true_to_size_and_alone() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("cut");
        // Without it the key says so, and leads to its field.
        page.tap_word(".wrap button", "Still needed: tube diameter, outside");
        page.until("the field of the diameter", "document.activeElement.id === 'tube-diameter'");
        page.write("tube-diameter", "3");
        measure(&page, ("A4", A4), 1, 76.2);
        measure(&page, ("Letter", LETTER), 1, 76.2);
        page.write("tube-diameter", "4");
        measure(&page, ("Letter", LETTER), 2, 101.6);
        measure(&page, ("A4", A4), 2, 101.6);
    });
}

#[test]
fn the_page_itself_prints_without_the_strip() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("cut");
        page.write("tube-diameter", "3");
        page.until("the preview", "!!document.querySelector('.wrap .paper')");
        let plain = printed(&page);
        tap_print(&page, "A4");
        assert_eq!(printed(&page).len(), 1);
        // Touched again: what is printed now is the page.
        page.tap("h1");
        page.until("the strip put away", "!document.querySelector('#print-strip').firstChild");
        let again = printed(&page);
        assert_eq!(again.len(), plain.len());
        for sheet in plain.iter().chain(&again) {
            // 8.5 by 11 in upright: the paper that Chromium takes where a page names none.
            close("width of the page", sheet.paper.0, LETTER.1, 2.0 * DOT);
            close("height of the page", sheet.paper.1, LETTER.0, 2.0 * DOT);
            let strip = PI * (76.2 + PAPER);
            let outlines = wide(&sheet.boxes, false);
            assert!(outlines.iter().all(|width| (width - strip).abs() > 1.0), "{outlines:?}");
        }
    });
}
