using System.CommandLine;
using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Hosting;
using WireUp.Files;
using WireUp.Output;
using WireUp.Web.Hosting;

namespace WireUp.Commands;

/// <summary><c>wireup serve</c>: everything on a page in the browser of this machine.</summary>
internal sealed class ServeVerb(Terminal terminal)
{
    private const int UsualPort = 5210;

    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<DirectoryInfo> folder = new("folder")
        {
            Description = "The folder of layout files; the one you are in if left out.",
            DefaultValueFactory = _ => new DirectoryInfo("."),
        };
        Option<int> port = new("--port") { Description = "Port on this machine; 0 for any that is free.", DefaultValueFactory = _ => UsualPort };
        port.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.GetValueOrDefault<int>() is not (>= 0 and <= ushort.MaxValue))
            {
                result.AddError("--port must be a number from 0 to 65535");
            }
        });
        Option<bool> lan = new("--lan") { Description = "Open the page to this local network too, for browsers that know a code shown here." };
        VerbCommand command = new("serve", """
            Shows the layouts of a folder on a page in your browser.

            On the page are a board to draw track on over a picture of the plan, findings pinned on the plan, turnouts to throw,
            proposals for the wiring to accept, volts and fault current under trains and coins, the text of the file with its
            problems, and the wiring schedule to tick off.
            Only browsers on this machine reach it, unless --lan lets in others of this network, each with a code of its own that
            stands in this window. Ctrl-C stops it.

            Examples:
              wireup serve
              wireup serve club/ --port 8080
              wireup serve club/ --lan

            Ends with 0 when it is stopped, 2 when the folder is not there or the port is taken.
            """)
        {
            folder, port, lan,
        };
        command.Runs<ServeVerb>((verb, parsed, cancel) => verb.RunAsync(parsed.GetRequiredValue(folder), parsed.GetValue(port), parsed.GetValue(lan), cancel));
        return command;
    }

    /// <summary>The page over a folder, ready to start.</summary>
    public static WebApplication Build(LayoutFolder folder, int port, Action<string>? tellAtDoor = null) => PageServer.Build(
        new PageOptions(folder)
        {
            Port = port,
            TellAtDoor = tellAtDoor,
            FindingPage = ExplainVerb.PageOf,
            NewLayout = StarterLayout.Text,
            BlankLayout = StarterLayout.Blank,
        },
        typeof(ServeVerb).Assembly.GetName().Name!,
        AppContext.BaseDirectory);

    private async Task<int> RunAsync(DirectoryInfo directory, int port, bool isOpen, CancellationToken cancel)
    {
        using LayoutFolder folder = new(directory);
        if (isOpen)
        {
            terminal.Note("--lan: whoever joins can read and change every layout in this folder. What goes over the network is not encrypted (plain http), so that others in it "
                + "could read along, code included. Use it only in a network whose people you trust, and stop it when you are done.");
        }

        await using WebApplication page = Build(folder, port, isOpen ? line => terminal.Write(line + "\n") : null);
        try
        {
            await page.StartAsync(cancel);
        }
        catch (IOException failure) when (failure.InnerException is AddressInUseException)
        {
            throw new InputRefused($"port {port} is taken by another program, perhaps another 'wireup serve'; choose one with --port, or --port 0 for any that is free");
        }
        catch (SocketException failure)
        {
            throw new InputRefused($"port {port} cannot be used: {failure.Message}; choose another with --port");
        }

        int taken = new Uri(page.Urls.Single()).Port;
        terminal.Note($"open http://127.0.0.1:{taken} in a browser on this machine; Ctrl-C stops it");
        if (isOpen) TellAddresses(taken);
        if (!folder.IsWatched) terminal.Note("changes of files by other programs cannot be watched here: they are noticed when a file is opened or saved");
        await page.WaitForShutdownAsync(cancel);
        return ExitCode.Fine;
    }

    private void TellAddresses(int port)
    {
        string[] addresses = [.. OwnAddresses().Select(address => $"http://{address}:{port}")];
        terminal.Note(addresses.Length == 0
            ? "--lan: this machine has no address in a local network now; nobody else can reach the page"
            : $"on another machine of this network open {string.Join(" or ", addresses)}");
    }

    private static IEnumerable<IPAddress> OwnAddresses() => NetworkInterface.GetAllNetworkInterfaces()
        .Where(card => card.OperationalStatus == OperationalStatus.Up)
        .SelectMany(card => card.GetIPProperties().UnicastAddresses)
        .Select(address => address.Address)
        .Where(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address))
        .Distinct();
}
