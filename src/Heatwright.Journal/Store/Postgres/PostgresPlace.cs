// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>A server and a database on it, as people write them.</summary>
/// <param name="Settings">How to connect.</param>
internal sealed record PostgresPlace(NpgsqlConnectionStringBuilder Settings)
{
    private static readonly string[] Schemes = ["postgresql://", "postgres://"];

    /// <summary>True when a text means a server and not a path.</summary>
    public static bool Is(string place) =>
        Schemes.Any(s => place.StartsWith(s, StringComparison.OrdinalIgnoreCase)) || place.StartsWith("Host=", StringComparison.OrdinalIgnoreCase);

    /// <summary>Reads a text such as "postgresql://anna@server:5432/shop?sslmode=require" or "Host=server;Database=shop".</summary>
    /// <exception cref="JournalException">It is neither.</exception>
    public static PostgresPlace Parse(string place)
    {
        try
        {
            NpgsqlConnectionStringBuilder settings = place.StartsWith("Host=", StringComparison.OrdinalIgnoreCase)
                ? new NpgsqlConnectionStringBuilder(place)
                : FromUri(new Uri(place));
            return string.IsNullOrEmpty(settings.Host) ? throw new FormatException("host: none is named")
                : string.IsNullOrEmpty(settings.Database) ? throw new FormatException("database: none is named")
                : new PostgresPlace(settings);
        }
        catch (Exception e) when (e is ArgumentException or FormatException or OverflowException or InvalidCastException)
        {
            // The text itself may hold a password and is not repeated.
            throw new JournalException(
                JournalProblem.NotFound,
                $"The place names no PostgreSQL database: {e.Message}. Mend: write it as postgresql://user@host:port/database or Host=…;Database=…",
                e);
        }
    }

    /// <summary>Server and database without password.</summary>
    public override string ToString()
    {
        string user = string.IsNullOrEmpty(Settings.Username) ? "" : Uri.EscapeDataString(Settings.Username) + "@";
        string database = Uri.EscapeDataString(Settings.Database!);
        return Settings.Host is ['/' or '@', ..]
            ? $"postgresql://{user}:{Settings.Port}/{database}?host={Settings.Host}"
            : $"postgresql://{user}{(Settings.Host!.Contains(':', StringComparison.Ordinal) ? $"[{Settings.Host}]" : Settings.Host)}:{Settings.Port}/{database}";
    }

    private static NpgsqlConnectionStringBuilder FromUri(Uri uri)
    {
        var settings = new NpgsqlConnectionStringBuilder { Host = uri.Host.Length > 0 ? uri.Host.Trim('[', ']') : "localhost" };
        if (uri.Port > 0)
        {
            settings.Port = uri.Port;
        }

        if (uri.AbsolutePath.Length > 1)
        {
            settings.Database = Uri.UnescapeDataString(uri.AbsolutePath[1..]);
        }

        string[] user = uri.UserInfo.Split(':', 2);
        settings.Username = user[0].Length > 0 ? Uri.UnescapeDataString(user[0]) : null;
        settings.Password = user.Length > 1 ? Uri.UnescapeDataString(user[1]) : null;
        foreach (string pair in uri.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] parts = pair.Split('=', 2);
            string value = Uri.UnescapeDataString(parts.Length > 1 ? parts[1] : "");
            switch (parts[0])
            {
                case "host":
                    settings.Host = value;
                    break;
                case "port":
                    settings.Port = int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out int port) && port is > 0 and < 65536
                        ? port
                        : throw new FormatException($"port: '{value}' is no number from 1 to 65535");
                    break;
                case "user":
                    settings.Username = value;
                    break;
                case "sslmode":
                    settings.SslMode = Enum.Parse<SslMode>(value.Replace("-", "", StringComparison.Ordinal), ignoreCase: true);
                    break;
                case "sslrootcert":
                    settings.RootCertificate = value;
                    break;
                default:
                    throw new FormatException($"'{parts[0]}' is none of the settings host, port, user, sslmode, sslrootcert");
            }
        }

        return settings;
    }
}
