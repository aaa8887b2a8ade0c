package lookstep.simulator.gear;

import java.util.List;
import java.util.Optional;
import lookstep.protocols.ptpip.ResponseCode;

/**
 * What a camera answers to a request.
 *
 * @param response how it ended
 * @param parameters of the response
 * @param data that comes before the response
 * @param from the handle whose file the data is of, 0 if it is of none
 * @param offset of the data in that file
 * @param fileOctets of the whole file
 */
record PtpIpAnswer(
        ResponseCode response,
        List<Integer> parameters,
        Optional<byte[]> data,
        int from,
        int offset,
        int fileOctets) {
    static PtpIpAnswer of(ResponseCode response) {
        return new PtpIpAnswer(response, List.of(), Optional.empty(), 0, 0, 0);
    }

    static PtpIpAnswer of(byte[] data) {
        return new PtpIpAnswer(ResponseCode.OK, List.of(), Optional.of(data), 0, 0, 0);
    }
}
