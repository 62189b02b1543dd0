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
    /// Answers the first `count` points of a checklist, a second after each other.
    function lookAtAll(name, count) {
        for (let i = 0; i < count; ++i) {
            bench.pass(1);
            root.tap(name + i);
            tryVerify(() => !root.isThere(name + i), 3000, name + i + " is answered");
        }
    }
    function open() {
        if (root.window) {
            root.window.destroy();
            wait(0);
        }
        const component = Qt.createComponent("qrc:/qt/qml/Loopside/Ui/Main.qml");
        verify(component.status === Component.Ready, component.errorString());
        root.window = component.createObject(null, {
                "home": bench.app
            });
        verify(root.window);
        root.window.requestActivate();
        tryVerify(() => root.window.active);
    }
    function part(name) {
        tryVerify(() => findChild(root.everything(), name) !== null, 3000, "there is a " + name);
        return findChild(root.everything(), name);
    }
    function planWaste() {
        tap("toTransfer");
        tap("wasteTank1");
        tap("wasteCart0");
        tap("wasteField0");
        type("205");
        tap("wasteField1");
        type("60");
        tap("wasteField2");
        type("160");
        tap("jobMain");
    }
    function pumpWaste() {
        planWaste();
        type("221");
        tap("valve0");
        lookAtAll("wastePoint", 4);
        tap("jobMain");
        tap("jobMain");
        type("128");
        tap("jobMain");
    }
    function record(mode) {
        root.tap(mode);
        if (root.isThere("hintConfirm")) {
            root.tap("hintConfirm");
        }
    }
    /// Where it is below the edge of the window, the key beside it brings it into sight.
    /// Waits until it stands still: what was touched before may move it.
    function rest(item) {
        let before;
        let now = item.mapToItem(everything(), 0, 0);
        do {
            before = now;
            wait(5);
            now = item.mapToItem(everything(), 0, 0);
        } while (now.x !== before.x || now.y !== before.y);
    }
    function scrollTo(item) {
        let area = item.parent;
        while (area && item.mapToItem(everything(), 0, item.height / 2).y > root.window.height - 20) {
            const down = findChild(area, "scrollDown");
            if (down && down.visible && down.enabled) {
                mouseClick(down);
                wait(20);
            } else {
                area = area.parent;
            }
        }
    }
    function setUp() {
        root.setUpRun(0, 0, "24");
    }
    /// Goes through the steps of a set-up that needs no more than that.
    function setUpRun(tank, cart, oil) {
        if (!root.isThere("tank0")) {
            if (!root.isThere("setUp")) {
                root.tap("toShift");
            }
            root.tap("setUp");
        }
        root.tap("tank" + tank);
        root.tap("nextStep");
        root.tap("cart" + cart);
        root.tap("nextStep");
        root.tap("step3");
        root.type(oil);
        root.tap("step4");
        root.tap("placement0");
        root.lookAtAll("hosePoint", 3);
        root.tap("nextStep");
        root.tap("target0");
        root.tap("step7");
        root.lookAtAll("areaPoint", 9);
        while (root.isThere("nextStep")) {
            // a step with a caution is looked at first
            root.tap("nextStep");
        }
        root.tap("startRun");
    }
    function tap(name) {
        const item = root.part(name);
        tryVerify(() => item.visible && item.enabled, 3000, name + " can be touched");
        verify(item.width >= 71 && item.height >= 71, name + " is large enough for a glove: " + item.width + " x " + item.height);
        scrollTo(item);
        rest(item);
        const touch = touchEvent(item);
        touch.press(0, item).commit();
        touch.release(0, item).commit();
        wait(20); // what a key does comes after the touch
    }
    function type(text) {
        for (const sign of text) {
            root.tap(sign === "." || sign === "-" ? "keyPoint" : "key" + sign);
        }
    }

    when: windowShown
}
