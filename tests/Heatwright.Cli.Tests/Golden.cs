// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Cli.Tests;

/// <summary>
/// Text reviewed by eye and kept in the folder Golden. With HEATWRIGHT_GOLDEN=write in the environment the tests write it
/// anew instead of comparing; look at the difference before you commit it.
/// </summary>
internal static class Golden
{
    public static void Check(string name, string actual)
    {
        string path = Path.Combine(Terminal.Root, "tests", "Heatwright.Cli.Tests", "Golden", name);
        if (Environment.GetEnvironmentVariable("HEATWRIGHT_GOLDEN") == "write")
        {
            File.WriteAllText(path, actual);
        }

        Assert.Equal(File.ReadAllText(path), actual);
    }
}
