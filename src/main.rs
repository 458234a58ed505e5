//! Mounts the page; everything else is in the library.

#[cfg(target_arch = "wasm32")]
fn main() {
    console_error_panic_hook::set_once();
    shaftwright::screen::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("Shaftwright is a web page: run ./dev serve and open the address it prints.");
}
