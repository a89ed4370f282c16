// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;

namespace Heatwright.Journal.Tests.Care;

/// <summary>A drive of a few megabytes in memory. To mount one takes root on Linux; without, the tests that need it are skipped and say so.</summary>
internal sealed class SmallDrive : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("heatwright-drive-");

    public SmallDrive(int megabytes)
    {
        bool mounted = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && Run("mount", "-t", "tmpfs", "-o", $"size={megabytes}m", "heatwright", _folder.FullName);
        if (!mounted)
        {
            _folder.Delete();
            Assert.Skip("A small drive can only be mounted by root on Linux.");
        }
    }

    public string File(string name) => Path.Combine(_folder.FullName, name);

    public string[] Files => Directory.GetFiles(_folder.FullName);

    /// <summary>The whole drive can only be read from now on, or be written again.</summary>
    public void ReadOnly(bool only) => Assert.True(Run("mount", "-o", only ? "remount,ro" : "remount,rw", _folder.FullName));

    public void Dispose()
    {
        Run("umount", "-l", _folder.FullName);
        _folder.Delete();
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, UseShellExecute = false })!;
            process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
