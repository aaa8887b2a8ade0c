package lookstep.simulator.gear;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import java.util.function.IntConsumer;
import java.util.function.ToIntFunction;
import lookstep.protocols.ptpip.BadBytesException;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.Numbers;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.protocols.ptpip.PropertyValue;
import lookstep.protocols.ptpip.ResponseCode;
import lookstep.protocols.ptpip.StorageInfo;
import lookstep.simulator.gear.CameraCard.Stored;

/** What a camera answers in one session, request by request (ISO 15740). One thread. */
final class PtpIpAnswers {
    private final PtpIpCamera.Offers offers;
    private final CameraCard card;
    private final CameraDials dials;
    private final IntConsumer capture;
    private boolean open;
    private int last;

    /**
     * Before the session is opened.
     *
     * @param capture takes the transaction of a release, and returns at once
     */
    PtpIpAnswers(
            PtpIpCamera.Offers offers, CameraCard card, CameraDials dials, IntConsumer capture) {
        this.offers = offers;
        this.card = card;
        this.dials = dials;
        this.capture = capture;
    }

    /**
     * Does what is asked.
     *
     * @param dataOut what came with the request, empty if nothing did
     * @param busy asked whether it has its hands full just now
     */
    PtpIpAnswer to(OperationRequest request, byte[] dataOut, BooleanSupplier busy) {
        Optional<Operation> known =
                offers.operations().stream()
                        .filter(o -> o.code() == request.operation())
                        .findFirst();
        if (known.isEmpty()) {
            return PtpIpAnswer.of(ResponseCode.OPERATION_NOT_SUPPORTED);
        }
        Operation operation = known.get();
        if (operation == Operation.GET_DEVICE_INFO) {
            return PtpIpAnswer.of(deviceInfo().encode());
        }
        if (operation == Operation.OPEN_SESSION) {
            return openSession(request);
        }
        if (!open) {
            return PtpIpAnswer.of(ResponseCode.SESSION_NOT_OPEN);
        }
        if (request.transaction() != last + 1) {
            return PtpIpAnswer.of(ResponseCode.INVALID_TRANSACTION_ID);
        }
        last = request.transaction();
        if (busy.getAsBoolean()) {
            return PtpIpAnswer.of(ResponseCode.DEVICE_BUSY);
        }
        return inSession(operation, request, dataOut);
    }

    private PtpIpAnswer openSession(OperationRequest request) {
        if (open) {
            return PtpIpAnswer.of(ResponseCode.SESSION_ALREADY_OPEN);
        }
        if (parameter(request, 0) == 0) {
            return PtpIpAnswer.of(ResponseCode.INVALID_PARAMETER);
        }
        open = true;
        last = 0;
        return PtpIpAnswer.of(ResponseCode.OK);
    }

    private PtpIpAnswer inSession(Operation operation, OperationRequest request, byte[] dataOut) {
        int first = parameter(request, 0);
        return switch (operation) {
            case CLOSE_SESSION -> {
                open = false;
                yield PtpIpAnswer.of(ResponseCode.OK);
            }
            case GET_STORAGE_IDS ->
                    PtpIpAnswer.of(new Numbers(List.of(CameraCard.STORAGE)).encode());
            case GET_STORAGE_INFO ->
                    first == CameraCard.STORAGE
                            ? PtpIpAnswer.of(storage().encode())
                            : PtpIpAnswer.of(ResponseCode.INVALID_STORAGE_ID);
            case GET_NUM_OBJECTS ->
                    new PtpIpAnswer(
                            ResponseCode.OK,
                            List.of(card.handles().size()),
                            Optional.empty(),
                            0,
                            0,
                            0);
            case GET_OBJECT_HANDLES -> handles(request);
            case GET_OBJECT_INFO -> object(first, stored -> PtpIpAnswer.of(stored.info().encode()));
            case GET_OBJECT ->
                    object(first, stored -> part(first, stored, 0, stored.content().length));
            case GET_THUMB -> object(first, PtpIpAnswers::thumb);
            case GET_PARTIAL_OBJECT ->
                    object(
                            first,
                            stored ->
                                    part(
                                            first,
                                            stored,
                                            parameter(request, 1),
                                            parameter(request, 2)));
            case INITIATE_CAPTURE -> {
                capture.accept(request.transaction());
                yield PtpIpAnswer.of(ResponseCode.OK);
            }
            case GET_DEVICE_PROP_DESC ->
                    property(first, p -> PtpIpAnswer.of(dials.describe(p).encode()));
            case GET_DEVICE_PROP_VALUE ->
                    property(
                            first,
                            p ->
                                    PtpIpAnswer.of(
                                            p.type()
                                                    .encode(
                                                            new PropertyValue.Whole(
                                                                    dials.value(p)))));
            case SET_DEVICE_PROP_VALUE -> property(first, p -> set(p, dataOut));
            case GET_DEVICE_INFO, OPEN_SESSION ->
                    throw new IllegalStateException(operation + " needs no session");
        };
    }

    private PtpIpAnswer handles(OperationRequest request) {
        int storage = parameter(request, 0);
        if (storage != CameraCard.STORAGE && storage != Operation.ALL_STORAGES) {
            return PtpIpAnswer.of(ResponseCode.INVALID_STORAGE_ID);
        }
        if (parameter(request, 1) != 0) {
            return PtpIpAnswer.of(ResponseCode.SPECIFICATION_BY_FORMAT_UNSUPPORTED);
        }
        return PtpIpAnswer.of(new Numbers(card.handles()).encode());
    }

    private PtpIpAnswer object(int handle, Function<Stored, PtpIpAnswer> answer) {
        return card.object(handle)
                .map(answer)
                .orElseGet(() -> PtpIpAnswer.of(ResponseCode.INVALID_OBJECT_HANDLE));
    }

    private static PtpIpAnswer thumb(Stored stored) {
        return stored.thumb()
                .map(PtpIpAnswer::of)
                .orElseGet(() -> PtpIpAnswer.of(ResponseCode.NO_THUMBNAIL_PRESENT));
    }

    private static PtpIpAnswer part(int handle, Stored stored, int offset, int most) {
        byte[] content = stored.content();
        long from = Math.min(Integer.toUnsignedLong(offset), content.length);
        long to = Math.min(from + Integer.toUnsignedLong(most), content.length);
        return new PtpIpAnswer(
                ResponseCode.OK,
                List.of((int) (to - from)),
                Optional.of(Arrays.copyOfRange(content, (int) from, (int) to)),
                handle,
                (int) from,
                content.length);
    }

    private PtpIpAnswer property(int code, Function<DeviceProperty, PtpIpAnswer> answer) {
        return dials.offered().stream()
                .filter(p -> p.code() == code)
                .findFirst()
                .map(answer)
                .orElseGet(() -> PtpIpAnswer.of(ResponseCode.DEVICE_PROP_NOT_SUPPORTED));
    }

    private PtpIpAnswer set(DeviceProperty property, byte[] dataOut) {
        try {
            if (!(property.type().read(dataOut) instanceof PropertyValue.Whole value)) {
                return PtpIpAnswer.of(ResponseCode.INVALID_DEVICE_PROP_FORMAT);
            }
            return PtpIpAnswer.of(
                    switch (dials.set(property, value.number())) {
                        case SET -> ResponseCode.OK;
                        case REFUSED -> ResponseCode.ACCESS_DENIED;
                        case NO_SUCH_VALUE -> ResponseCode.INVALID_DEVICE_PROP_VALUE;
                    });
        } catch (BadBytesException tooShort) {
            return PtpIpAnswer.of(ResponseCode.INVALID_DEVICE_PROP_FORMAT);
        }
    }

    private DeviceInfo deviceInfo() {
        return new DeviceInfo(
                100,
                0,
                0,
                "",
                0,
                codes(offers.operations(), Operation::code),
                codes(offers.events(), EventCode::code),
                codes(dials.offered(), DeviceProperty::code),
                List.of(ObjectFormat.EXIF_JPEG.code()),
                List.of(ObjectFormat.EXIF_JPEG.code()),
                "Lookstep",
                offers.model(),
                "1.0",
                "1");
    }

    private static <T> List<Integer> codes(Collection<T> all, ToIntFunction<T> code) {
        return all.stream().map(code::applyAsInt).sorted().toList();
    }

    private static StorageInfo storage() {
        // 3 removable RAM, 2 hierarchical, 0 read and write (from memory of ISO 15740)
        return new StorageInfo(3, 2, 0, 64_000_000_000L, 32_000_000_000L, 1000, "card", "");
    }

    private static int parameter(OperationRequest request, int index) {
        return index < request.parameters().size() ? request.parameters().get(index) : 0;
    }
}
