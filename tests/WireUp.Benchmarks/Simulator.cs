using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace WireUp.Benchmarks;

/// <summary>The simulator ngspice, where it is installed.</summary>
internal static partial class Simulator
{
    /// <summary>What it reports as its total analysis time, least of some runs, or null where it is not installed.</summary>
    internal static double? Milliseconds(string netlist, int runs)
    {
        string file = Path.Combine(Path.GetTempPath(), $"wireup-performance-{Environment.ProcessId.ToString(CultureInfo.InvariantCulture)}.cir");
        try
        {
            File.WriteAllText(file, netlist);
            return Enumerable.Range(0, runs).Select(_ => Run(file)).Min();
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static double? Run(string file)
    {
        using Process? process = Process.Start(new ProcessStartInfo("ngspice", ["-b", file])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        });
        Task<string>? errors = process?.StandardError.ReadToEndAsync();
        string output = process?.StandardOutput.ReadToEnd() ?? "";
        Match match = AnalysisTime().Match(output + errors?.Result);
        return match.Success ? 1000 * double.Parse(match.Groups["seconds"].Value, CultureInfo.InvariantCulture) : null;
    }

    [GeneratedRegex(@"Total analysis time \(seconds\) = (?<seconds>[0-9.e+-]+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AnalysisTime();
}
