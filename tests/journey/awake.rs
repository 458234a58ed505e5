//! The screen kept from going dark while both hands are on the shaft. What a lock does is the
//! specification's, W3C Screen Wake Lock; a stand-in for the device gives and takes it.

use crate::visit::visit;

#[test]
fn the_screen_is_kept_awake_on_this_stage_alone_and_it_says_so() {
    const AWAKE: &str = "The screen stays awake on this stage.";
    const DARK: &str = "This browser lets the screen go dark here.";
    visit(|visit| {
        let page = visit.window();
        page.prepare(
            "window.locks = []; window.answer = 'granted';
             Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: {
                request: async (kind) => {
                    if (window.answer !== 'granted') throw new DOMException('no', 'NotAllowedError');
                    const lock = { kind, released: false, onrelease: null, async release() {
                        if (!lock.released) { lock.released = true; lock.onrelease?.(); } } };
                    window.locks.push(lock);
                    return lock;
                } } });",
        );
        page.open(&visit.server.address());
        page.tap(".new-job");
        page.at_stage("measure");
        assert_eq!(page.ask::<usize>("locks.length"), 0, "asked before it is wanted");
        page.stage("true");
        page.reads(".questions", AWAKE);
        assert_eq!(page.ask::<Vec<String>>("locks.map((lock) => lock.kind)"), ["screen"]);
        page.stage("cut");
        page.until("let go of with the stage", "locks[0].released");
        page.stage("true");
        page.reads(".questions", AWAKE);
        // Taken back by the device, as on a low battery; asked for again when the page is seen again.
        page.ask::<()>("void locks.at(-1).release()");
        page.reads(".questions", DARK);
        page.ask::<()>("void document.dispatchEvent(new Event('visibilitychange'))");
        page.reads(".questions", AWAKE);
        assert_eq!(page.ask::<usize>("locks.filter((lock) => !lock.released).length"), 1);
        // Refused, and by a browser that does not know of it.
        page.stage("cut");
        page.ask::<()>("void (window.answer = 'denied')");
        page.stage("true");
        page.reads(".questions", DARK);
        page.stage("cut");
        page.ask::<()>("void Object.defineProperty(navigator, 'wakeLock', { value: undefined })");
        page.stage("true");
        page.reads(".questions", DARK);
        assert_eq!(page.ask::<usize>("locks.filter((lock) => !lock.released).length"), 0);
    });
}
