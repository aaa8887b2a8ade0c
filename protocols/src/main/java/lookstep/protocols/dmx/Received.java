package lookstep.protocols.dmx;

import java.util.Arrays;

/** What a receiver made of the line: a packet, or a fault that it noticed. */
public sealed interface Received {
    /**
     * A packet. Those with another START code than NULL are no levels: a light leaves them alone.
     * Immutable.
     */
    final class Packet implements Received {
        private final int startCode;
        private final byte[] slots;

        /**
         * @param startCode 0..255
         * @param slots 0 to 512 octets, slot 1 first; copied
         */
        public Packet(int startCode, byte[] slots) {
            this.startCode = startCode;
            this.slots = slots.clone();
        }

        /** See {@link StartCode}. */
        public int startCode() {
            return startCode;
        }

        /** Whether the slots are levels to act on. */
        public boolean hasLevels() {
            return startCode == StartCode.NULL;
        }

        /** How many slots came, 0..512. */
        public int slotCount() {
            return slots.length;
        }

        /** Slot {@code n}, counted from 1 to {@link #slotCount}; 0..255. */
        public int slot(int n) {
            if (n < 1 || n > slots.length) {
                throw new IllegalArgumentException("slot " + n + " of " + slots.length);
            }
            return slots[n - 1] & 0xFF;
        }

        /** The slots that came, slot 1 first; a copy. */
        public byte[] slots() {
            return slots.clone();
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof Packet packet
                    && startCode == packet.startCode
                    && Arrays.equals(slots, packet.slots);
        }

        @Override
        public int hashCode() {
            return 31 * startCode + Arrays.hashCode(slots);
        }

        @Override
        public String toString() {
            return "Packet[START code 0x%02X, %d slots]".formatted(startCode, slots.length);
        }
    }

    /**
     * Something that ought not to be on the line.
     *
     * @param what in plain words
     */
    record Fault(String what) implements Received {}
}
