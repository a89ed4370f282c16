// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Heatwright.Journal.Tests.Store;
using Npgsql;

[assembly: AssemblyFixture(typeof(PostgresServer.End))]

namespace Heatwright.Journal.Tests.Store;

/// <summary>
/// A real PostgreSQL server with a cluster of its own in a temporary folder, as durable as a plant's (fsync on), reachable from this
/// machine only. It will not run as root: then it runs as the user postgres.
/// </summary>
public sealed class PostgresServer : IDisposable
{
    private const string Prefix = "heatwright-postgres-";
    private static readonly Lock Gate = new();
    private static PostgresServer? _shared;
    private static int _databases;

    private readonly string _folder;
    private readonly string _data;

    public PostgresServer()
    {
        _folder = Directory.CreateTempSubdirectory($"{Prefix}{Environment.ProcessId}-").FullName;
        _data = Path.Combine(_folder, "data");
        if (Environment.IsPrivilegedProcess)
        {
            Run("chown", ["postgres", _folder]);
        }

        Tool("initdb", "-D", _data, "-U", "postgres", "--auth=trust", "--encoding=UTF8", "--locale=C", "--no-instructions");
        using (var probe = new TcpListener(IPAddress.Loopback, 0))
        {
            probe.Start();
            Port = ((IPEndPoint)probe.LocalEndpoint).Port;
        }

        File.AppendAllText(
            Path.Combine(_data, "postgresql.conf"),
            $"\nlisten_addresses = '127.0.0.1'\nport = {Port}\nunix_socket_directories = '{_folder}'\nmax_connections = 100\nshared_buffers = 64MB\nfsync = on\n");
        Start();
    }

    /// <summary>Why there can be no server here; null when there can.</summary>
    public static string? Absent { get; } = Programs() is null ? "PostgreSQL is not installed (Debian: postgresql)" : null;

    /// <summary>The server of all tests that do not stop it.</summary>
    public static PostgresServer Shared
    {
        get
        {
            Assert.SkipUnless(Absent is null, Absent ?? "");
            lock (Gate)
            {
                if (_shared is null)
                {
                    StopForgotten();
                    _shared = new PostgresServer();
                }

                return _shared;
            }
        }
    }

    public int Port { get; }

    /// <summary>A new database without a journal in it.</summary>
    public string NewDatabase()
    {
        string name = $"t{Interlocked.Increment(ref _databases)}";
        Execute(Place("postgres"), $"CREATE DATABASE {name}");
        return Place(name);
    }

    /// <summary>The place of a database, as the product takes it.</summary>
    public string Place(string database) => $"postgresql://postgres@127.0.0.1:{Port}/{database}";

    /// <summary>Runs a statement past the product, with the journal's tables in sight.</summary>
    public static void Execute(string place, string sql)
    {
        var uri = new Uri(place);
        using var connection = new NpgsqlConnection(
            $"Host={uri.Host};Port={uri.Port};Username=postgres;Database={uri.AbsolutePath[1..]};Search Path=heatwright;Pooling=false");
        connection.Open();
        using var command = new NpgsqlCommand(sql, connection);
        command.ExecuteNonQuery();
    }

    public void Start() => Tool("pg_ctl", "start", "-w", "-D", _data, "-l", Path.Combine(_folder, "log"));

    /// <summary>Stops the server; at once: as if it had crashed.</summary>
    public void Stop(bool atOnce) => Tool("pg_ctl", "stop", "-w", "-D", _data, "-m", atOnce ? "immediate" : "fast");

    /// <summary>Kills the server and all its helpers (SIGKILL), as a machine does that dies. Returns when they are gone.</summary>
    public void Kill()
    {
        int postmaster = int.Parse(File.ReadLines(Path.Combine(_data, "postmaster.pid")).First());
        List<Process> all = [Process.GetProcessById(postmaster), .. Helpers(postmaster)];
        foreach (Process process in all)
        {
            process.Kill();
        }

        foreach (Process process in all)
        {
            process.WaitForExit();
            process.Dispose();
        }
    }

    public void Dispose()
    {
        Stop(atOnce: true);
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>A test run that was killed leaves its server running; the next one ends it.</summary>
    private static void StopForgotten()
    {
        foreach (string folder in Directory.GetDirectories(Path.GetTempPath(), Prefix + "*"))
        {
            string owner = Path.GetFileName(folder)[Prefix.Length..].Split('-')[0];
            if (Directory.Exists($"/proc/{owner}"))
            {
                continue;
            }

            try
            {
                string data = Path.Combine(folder, "data");
                if (File.Exists(Path.Combine(data, "postmaster.pid")))
                {
                    Tool("pg_ctl", "stop", "-w", "-D", data, "-m", "immediate");
                }

                Directory.Delete(folder, recursive: true);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidOperationException)
            {
                // Another user's, or another run is at it too.
            }
        }
    }

    private static IEnumerable<Process> Helpers(int parent)
    {
        string children = Path.Combine("/proc", $"{parent}", "task", $"{parent}", "children");
        foreach (string child in File.ReadAllText(children).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            Process? process = null;
            try
            {
                process = Process.GetProcessById(int.Parse(child));
            }
            catch (ArgumentException)
            {
                // Gone by itself.
            }

            if (process is not null)
            {
                yield return process;
            }
        }
    }

    private static string? Programs()
    {
        string debian = Path.Combine("/usr", "lib", "postgresql");
        IEnumerable<string> versions = Directory.Exists(debian)
            ? Directory.GetDirectories(debian).OrderByDescending(d => int.TryParse(Path.GetFileName(d), out int v) ? v : 0).Select(d => Path.Combine(d, "bin"))
            : [];
        return versions.Concat((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator))
            .FirstOrDefault(d => File.Exists(Path.Combine(d, "initdb")) && File.Exists(Path.Combine(d, "pg_ctl")));
    }

    private static void Tool(string name, params string[] arguments)
    {
        string program = Path.Combine(Programs()!, name);
        if (Environment.IsPrivilegedProcess)
        {
            Run("runuser", ["-u", "postgres", "--", program, .. arguments]);
        }
        else
        {
            Run(program, arguments);
        }
    }

    private static void Run(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}: {error}{output.Result}");
        }
    }

    /// <summary>Stops the shared server after the last test.</summary>
    public sealed class End : IDisposable
    {
        public void Dispose()
        {
            lock (Gate)
            {
                _shared?.Dispose();
                _shared = null;
            }
        }
    }
}
