// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Runtime.CompilerServices;
using Heatwright.Reports.Pictures;

namespace Heatwright.Cli.Input;

/// <summary>Pictures beside the answer.</summary>
internal sealed class PictureOptions
{
    private static readonly string[] All = ["spine", "account", "window"];

    private readonly Option<string?> _svg = new("--svg") { Description = "Write the picture as SVG.", HelpName = "FILE" };
    private readonly Option<string?> _png = new("--png") { Description = "Write the picture as PNG.", HelpName = "FILE" };
    private readonly Option<bool> _dark = new("--dark") { Description = "Picture on dark ground." };
    private readonly Option<string> _which;

    public PictureOptions(string first)
    {
        _which = new Option<string>("--picture")
        {
            Description = "Which picture: spine (the blow over % oxygen), account (where the heat comes from), window (carbon and temperature).",
            DefaultValueFactory = _ => first,
            HelpName = string.Join("|", All),
        };
        _which.AcceptOnlyFromAmong(All);
    }

    public void AddTo(Command command)
    {
        command.Options.Add(_svg);
        command.Options.Add(_png);
        command.Options.Add(_which);
        command.Options.Add(_dark);
    }

    /// <summary>Draws only when a file is asked for.</summary>
    public void Write(ParseResult parsed, Func<string, bool, Picture> draw)
    {
        if (parsed.GetValue(_svg) is null && parsed.GetValue(_png) is null)
        {
            return;
        }

        Draw(parsed.GetValue(_svg), parsed.GetValue(_png), draw, parsed.GetValue(_which)!, parsed.GetValue(_dark));
    }

    // Apart, so that the drawing library is loaded only here.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Draw(string? svg, string? png, Func<string, bool, Picture> draw, string which, bool dark)
    {
        Picture picture = draw(which, dark);
        if (svg is not null)
        {
            File.WriteAllText(svg, picture.ToSvg());
        }

        if (png is not null)
        {
            File.WriteAllBytes(png, picture.ToPng());
        }
    }
}
