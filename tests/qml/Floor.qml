// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// A test on the whole window: finds things by name, touches them as a finger does.
TestCase {
    id: root

    property var window: null

    function cleanup() {
        if (root.window) {
            root.window.destroy();
            root.window = null;
        }
        wait(0);
    }
    function everything() {
        return findChild(root.window, "everything");
    }
    function isThere(name) {
        const found = findChild(root.everything(), name);
        return found !== null && found.visible;
    }
    function logSet(g1, g2, g3, oil) {
        const values = [g1, g2, g3, oil];
        for (let i = 0; i < values.length; ++i) {
            root.tap("field" + i);
            root.type(values[i]);
        }
        root.tap("keyMain");
    }
    function open() {
        if (root.window) {
            root.window.destroy();
            wait(0);
        }
        const component = Qt.createComponent("qrc:/qt/qml/Loopside/Ui/Main.qml");
        verify(component.status === Component.Ready, component.errorString());
        root.window = component.createObject(null, {
                "app": bench.app
            });
        verify(root.window);
        root.window.requestActivate();
        tryVerify(() => root.window.active);
    }
    function part(name) {
        const found = findChild(root.everything(), name);
        verify(found, "there is a " + name);
        return found;
    }
    function record(mode) {
        root.tap(mode);
        if (root.isThere("hintConfirm")) {
            root.tap("hintConfirm");
        }
    }
    function setUp() {
        root.tap("tank0");
        root.tap("cart0");
        root.tap("target0");
        root.type("24");
        for (let i = 0; i < 4; ++i) {
            root.tap("check" + i);
        }
        root.tap("startRun");
    }
    function tap(name) {
        const item = root.part(name);
        verify(item.visible && item.enabled, name + " can be touched");
        verify(item.width >= 71 && item.height >= 71, name + " is large enough for a glove: " + item.width + " x " + item.height);
        const touch = touchEvent(item);
        touch.press(0, item).commit();
        touch.release(0, item).commit();
        wait(0); // what a key does comes after the touch
    }
    function type(text) {
        for (const sign of text) {
            root.tap(sign === "." ? "keyPoint" : "key" + sign);
        }
    }

    when: windowShown
}
