package lookstep.server.ftp;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.ftpserver.ftplet.Authentication;
import org.apache.ftpserver.ftplet.AuthenticationFailedException;
import org.apache.ftpserver.ftplet.FtpException;
import org.apache.ftpserver.ftplet.User;
import org.apache.ftpserver.ftplet.UserManager;
import org.apache.ftpserver.usermanager.UsernamePasswordAuthentication;
import org.apache.ftpserver.usermanager.impl.BaseUser;
import org.apache.ftpserver.usermanager.impl.ConcurrentLoginPermission;

/** The cameras as users; nobody else is one. */
final class CameraUsers implements UserManager {
    /** A camera may still hold connections that broke. */
    private static final int LOGINS_OF_ONE = 4;

    private final Map<String, FtpCamera> cameras = new TreeMap<>();
    private final Duration idle;
    private final FtpNews news;

    CameraUsers(List<FtpCamera> all, Duration idle, FtpNews news) {
        this.news = news;
        all.forEach(camera -> cameras.put(camera.name(), camera));
        this.idle = idle;
    }

    @Override
    public User authenticate(Authentication shown) throws AuthenticationFailedException {
        if (shown instanceof UsernamePasswordAuthentication named
                && named.getUsername() != null
                && named.getPassword() != null) {
            Optional<FtpCamera> camera = Optional.ofNullable(cameras.get(named.getUsername()));
            if (camera.isPresent() && isPassword(camera.get(), named.getPassword())) {
                return user(camera.get().name());
            }
            news.refused(
                    camera.map(FtpCamera::name),
                    named.getUserMetadata().getInetAddress().getHostAddress());
        }
        throw new AuthenticationFailedException("no such camera, or not its password");
    }

    /** Takes as long for a wrong first letter as for a wrong last one. */
    private static boolean isPassword(FtpCamera camera, String shown) {
        return MessageDigest.isEqual(
                camera.password().getBytes(StandardCharsets.UTF_8),
                shown.getBytes(StandardCharsets.UTF_8));
    }

    private User user(String name) {
        BaseUser user = new BaseUser();
        user.setName(name);
        user.setHomeDirectory("/");
        user.setMaxIdleTime((int) idle.toSeconds());
        user.setAuthorities(List.of(new ConcurrentLoginPermission(LOGINS_OF_ONE, LOGINS_OF_ONE)));
        return user;
    }

    @Override
    public User getUserByName(String name) {
        return cameras.containsKey(name) ? user(name) : null;
    }

    @Override
    public String[] getAllUserNames() {
        return cameras.keySet().toArray(new String[0]);
    }

    @Override
    public boolean doesExist(String name) {
        return cameras.containsKey(name);
    }

    @Override
    public void delete(String name) throws FtpException {
        throw new FtpException("cameras are named at the start");
    }

    @Override
    public void save(User user) throws FtpException {
        throw new FtpException("cameras are named at the start");
    }

    @Override
    public String getAdminName() {
        return "";
    }

    @Override
    public boolean isAdmin(String name) {
        return false;
    }
}
