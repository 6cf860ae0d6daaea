using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Runs the circuit simulator on a netlist and reads the node voltages it prints. Any warning is a failure.</summary>
internal static partial class Ngspice
{
    /// <summary>Node voltages by node name, at full precision.</summary>
    internal static IReadOnlyDictionary<string, double> OperatingPoint(string netlist)
    {
        string program = OutsideTools.RequireNgspice();
        string folder = Directory.CreateTempSubdirectory("wireup-spice-").FullName;
        try
        {
            string file = Path.Combine(folder, "layout.cir");
            File.WriteAllText(file, WithPrinting(netlist));
            return Parse(Run(program, file));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The netlist runs as it is; the control block only makes the numbers come out with all their digits.</summary>
    private static string WithPrinting(string netlist) =>
        netlist.Replace(".op\n.end\n", ".op\n.control\nset numdgt=15\nrun\nprint all\nquit\n.endc\n.end\n", StringComparison.Ordinal);

    internal static string Run(string program, string file)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, ["-b", file])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        string complaints = errors.Result;
        Assert.DoesNotContain("warning", output + complaints, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("error", complaints, StringComparison.OrdinalIgnoreCase);
        return output;
    }

    private static Dictionary<string, double> Parse(string output)
    {
        Dictionary<string, double> volts = new(StringComparer.Ordinal) { ["0"] = 0 };
        foreach (Match match in Voltage().Matches(output))
        {
            volts[match.Groups["node"].Value] = double.Parse(match.Groups["volts"].Value, NumberStyles.Float, CultureInfo.InvariantCulture);
        }

        return volts;
    }

    [GeneratedRegex(@"^(?<node>[a-z0-9_]+) = (?<volts>[-+0-9.e]+)\s*$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Voltage();
}
