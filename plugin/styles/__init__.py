"""Layer styles: one QML a layer, the script that makes them, and the inks that sheets share with them."""
